package slip

import (
	"bytes"
	"crypto/ed25519"
	"fmt"
	"image"
	"image/color"
	"image/jpeg"
	"reflect"
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"example.org/driploop/model/care"
	"example.org/driploop/model/drill"
	"example.org/driploop/model/journal"
	"example.org/driploop/model/photo"
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/rounds"
	"example.org/driploop/model/working"
)

const (
	goodVisit = `{"id":"v1","label":"Starter 10","made":"2026-11-30T09:00","zone":"+01:00","units":"metric","from":"2026-11-01","to":"2026-11-30",` +
		`"facts":[{"field":"tank.shape","kind":"choice","value":"box"}],` +
		`"entries":[{"kind":"tested","at":"2026-11-29T18:00","zone":"+01:00","readings":[{"name":"nitrite","value":"0.50","unit":"mg/l","basis":"ion"}]}]}`
	goodReply = `{"id":"r1","visit":"v1","made":"2026-11-30T10:00","zone":"+01:00","shop":{"name":"Starter 10"},"advice":{"en":"Test again."},` +
		`"test":{"at":"2026-11-30T09:50","zone":"+01:00","readings":[{"name":"ph","value":"7.0","unit":"ph"}]},` +
		`"rounds":[{"code":"test","rule":"FREQ=DAILY"}],"plan":[{"change":"hold","species":"neon_tetra","count":0}]}`
)

func readVisit(b []byte) (Visit, []working.Finding, error) {
	return ReadVisit(bytes.NewReader(b), int64(len(b)))
}

func readReply(b []byte) (Reply, []working.Finding, error) {
	return ReadReply(bytes.NewReader(b), int64(len(b)))
}

var (
	visits = shape{FormatVisit, partVisit, goodVisit, func(b []byte) (bool, error) {
		v, found, err := readVisit(b)
		return !reflect.DeepEqual(v, Visit{}) || found != nil, err
	}}
	replies = shape{FormatReply, partReply, goodReply, func(b []byte) (bool, error) {
		r, found, err := readReply(b)
		return !reflect.DeepEqual(r, Reply{}) || found != nil, err
	}}
)

// paint makes a JPEG of some sides and colour.
func paint(w, h int, c color.Color) []byte {
	m := image.NewRGBA(image.Rect(0, 0, w, h))
	for i := range w * h {
		m.Set(i%w, i/w, c)
	}
	var b bytes.Buffer
	if err := jpeg.Encode(&b, m, nil); err != nil {
		panic(err)
	}
	return b.Bytes()
}

// stuffed is a JPEG of exactly n bytes: segments of comment are put into it.
func stuffed(n int, c color.Color) []byte {
	b := paint(8, 8, c)
	var more []byte
	for left := n - len(b); left > 0; {
		k := min(left, 65_000)
		if left-k > 0 && left-k < 4 { // a segment takes four bytes at least
			k -= 4
		}
		more = append(more, 0xff, 0xfe, byte((k-2)>>8), byte(k-2))
		more = append(more, noise(k-4, int64(left))...)
		left -= k
	}
	return append(append(bytes.Clone(b[:2]), more...), b[2:]...)
}

func someCivil(t *rapid.T, label string) journal.Civil {
	return journal.Civil(fmt.Sprintf("%s-%02d-%02dT%02d:%02d", strconv.Itoa(rapid.IntRange(1900, 2999).Draw(t, label)), rapid.IntRange(1, 12).Draw(t, "month"),
		rapid.IntRange(1, 28).Draw(t, "day"), rapid.IntRange(0, 23).Draw(t, "hour"), rapid.IntRange(0, 59).Draw(t, "minute")))
}

func someZone(t *rapid.T) string {
	return rapid.SampledFrom([]string{"+00:00", "-11:00", "+05:45", "+14:00"}).Draw(t, "zone")
}

func someReading(t *rapid.T, name string) journal.Reading {
	if words, ok := journal.Vocabulary(name); ok {
		word := someText(t, journal.MaxWords, false, name)
		if len(words) > 0 {
			word = rapid.SampledFrom(words).Draw(t, name)
		}
		return journal.Said(name, word)
	}
	r := journal.Reading{Name: name, Qualifier: rapid.SampledFrom([]journal.Qualifier{journal.Plain, journal.Plain, journal.NotDetected, journal.OverRange}).Draw(t, "qualifier")}
	kind := rapid.SampledFrom(journal.KindsOf(name)).Draw(t, "kind of "+name)
	u := rapid.SampledFrom(quantity.UnitsOf(kind)).Draw(t, "unit of "+name)
	x := rapid.Float64Range(0, 45).Draw(t, name)
	decimals := rapid.IntRange(0, 6).Draw(t, "decimals")
	if kind == quantity.KindCount {
		decimals = 0
	}
	r.Measure = quantity.Measure{Number: strconv.FormatFloat(x, 'f', decimals, 64), Unit: u.Code}
	if journal.HasBasis(name) {
		r.Measure.Basis = rapid.SampledFrom([]quantity.Basis{quantity.AsN, quantity.AsIon}).Draw(t, "basis")
	}
	return r
}

// someReadings draws readings that the journal takes.
func someReadings(t *rapid.T, names []string) (out []journal.Reading) {
	for _, name := range rapid.SliceOfNDistinct(rapid.SampledFrom(names), 0, 6, rapid.ID[string]).Draw(t, "names") {
		if r := someReading(t, name); r.Check() == nil {
			out = append(out, r)
		}
	}
	return out
}

var readingNames = append(journal.Tests(), journal.NameVolume, journal.NameDose, journal.NameFeed, journal.NameCount, journal.NameDuration, journal.NameLength,
	journal.NameReason, journal.NameState, journal.NameLeft, journal.NamePart, journal.NameWhat, journal.NameCame, journal.NameSeen, journal.NameSource, journal.NamePrice)

func someAnimals(t *rapid.T, v Visit) (out []Animal) {
	for range rapid.IntRange(0, 3).Draw(t, "animals") {
		a := Animal{Species: rapid.SampledFrom([]string{"", "neon_tetra", "of-later"}).Draw(t, "species"), Name: someText(t, MaxSaid, false, "fish"), Count: rapid.IntRange(0, maxCount).Draw(t, "count")}
		if rapid.Bool().Draw(t, "sexed") {
			n := rapid.IntRange(0, a.Count).Draw(t, "males")
			a.Males = &n
		}
		if rapid.Bool().Draw(t, "measured") {
			a.Since, a.LengthAt, a.Length = "2026-01-01", "2026-02-28", quantity.Measure{Number: "3.50", Unit: "cm"}
		}
		if v.has(Notes) {
			a.Source = someText(t, MaxSaid, false, "source")
		}
		if v.has(Prices) {
			a.Price = someText(t, MaxSaid, false, "price")
		}
		out = append(out, a)
	}
	return out
}

func someMarks(t *rapid.T) (out []photo.Mark) {
	point := func() photo.Point {
		return photo.Point{X: float64(rapid.IntRange(0, 100_000).Draw(t, "x")) / 100, Y: float64(rapid.IntRange(0, 100_000).Draw(t, "y")) / 100}
	}
	for range rapid.IntRange(0, 3).Draw(t, "marks") {
		m := photo.Mark{Kind: rapid.SampledFrom(photo.MarkKinds()).Draw(t, "mark"), Points: []photo.Point{point(), point()}, Words: someText(t, 60, false, "mark says")}
		switch m.Kind {
		case photo.Text:
			m.Points = m.Points[:1]
		case photo.Known:
			m.Measure = quantity.Measure{Number: "24.0", Unit: "mm"}
		}
		if m.Check() == nil {
			out = append(out, m)
		}
	}
	return out
}

func someMore(t *rapid.T) map[string]string {
	if !rapid.Bool().Draw(t, "of a later version") {
		return nil
	}
	return map[string]string{"x_later": rapid.SampledFrom([]string{`1`, `true`, `null`, `{"a":[1.50,"<b>"]}`, `"é"`}).Draw(t, "later"), "año": `[]`}
}

func someVisit(t *rapid.T) Visit {
	v := Visit{Version: Version, MadeBy: Maker{someText(t, MaxProgram, false, "program"), "1"}, ID: rapid.StringMatching(`[A-Za-z0-9_-]{1,64}`).Draw(t, "id"),
		Label: someText(t, MaxLabel, false, "label"), Made: someCivil(t, "made"), Zone: someZone(t), Language: rapid.SampledFrom([]string{"", "es", "zh-Hant-TW"}).Draw(t, "language"),
		Units: rapid.SampledFrom(quantity.Systems()).Draw(t, "units"), Region: rapid.SampledFrom([]string{"", "ES"}).Draw(t, "region"),
		From: "2026-01-01", To: rapid.SampledFrom([]string{"2026-01-01", "2026-12-31"}).Draw(t, "to"),
		Stand: rapid.SampledFrom([]string{"", "steady", "wait", "act"}).Draw(t, "stand"), More: someMore(t)}
	for _, p := range Privates() {
		if rapid.Bool().Draw(t, string(p)) {
			v.Private = append(v.Private, p)
		}
	}
	for range rapid.IntRange(0, 8).Draw(t, "facts") {
		f := rapid.SampledFrom(care.Fields()).Draw(t, "fact")
		if !VisitFact(f.ID) || IsPrice(f.ID) && !v.has(Prices) {
			continue
		}
		if a := someAnswer(t, f); checkAnswer(partVisit, "facts", f.ID, a) == nil {
			if v.Facts == nil {
				v.Facts = map[care.FieldID]care.Answer{}
			}
			v.Facts[f.ID] = a
		}
	}
	if rapid.Bool().Draw(t, "net") {
		v.Net = quantity.Measure{Number: "54.0", Unit: "l"}
	}
	v.Stock, v.Wishes = someAnimals(t, v), someAnimals(t, v)
	if rapid.Bool().Draw(t, "case") {
		v.Case = &VisitCase{About: someText(t, MaxSaid, false, "about"), Species: "neon_tetra", Many: "one", Opened: someCivil(t, "opened"),
			Signs: []VisitSign{{"gasping_surface", someCivil(t, "seen"), ""}, {"of_later", someCivil(t, "seen"), someCivil(t, "gone")}}}
		if v.has(Notes) {
			v.Case.Closed, v.Case.Outcome, v.Case.Note = someCivil(t, "closed"), "well", someText(t, 500, true, "case note")
		}
	}
	for range rapid.IntRange(0, 4).Draw(t, "entries") {
		e := VisitEntry{Entry: journal.Entry{Kind: rapid.SampledFrom(journal.Kinds()).Draw(t, "kind"), At: someCivil(t, "at"), Zone: someZone(t)}, OfCase: v.Case != nil && rapid.Bool().Draw(t, "of case")}
		if v.has(Notes) {
			e.Note = someText(t, 300, true, "note")
		}
		for _, r := range someReadings(t, readingNames) {
			if r.Name == journal.NamePrice && !v.has(Prices) || r.Name == journal.NameSource && !v.has(Notes) {
				continue
			}
			if e.Readings = append(e.Readings, r); rapid.Bool().Draw(t, "kit") {
				e.Kits = map[string]string{r.Name: "Drops"}
			}
		}
		v.Entries = append(v.Entries, e)
	}
	for i := range rapid.IntRange(0, 3).Draw(t, "pictures") {
		p := VisitPicture{JPEG: paint(rapid.IntRange(1, 40).Draw(t, "width"), 7+i, color.RGBA{uint8(80 * i), 90, 100, 255}), OfCase: v.Case != nil, Marks: someMarks(t)}
		if rapid.Bool().Draw(t, "dated") {
			p.Taken, p.Zone = someCivil(t, "taken"), someZone(t)
		}
		if v.has(Notes) {
			p.Caption = someText(t, 200, false, "caption")
		}
		if v.has(Places) {
			p.Place = &photo.Place{Latitude: rapid.Float64Range(-90, 90).Draw(t, "latitude") + 0, Longitude: rapid.Float64Range(-180, 180).Draw(t, "longitude") + 0} // no -0
		}
		v.Pictures = append(v.Pictures, p)
	}
	for range rapid.IntRange(0, 3).Draw(t, "questions") {
		v.Questions = append(v.Questions, "Q "+someText(t, 200, true, "question"))
	}
	v.Apart = rapid.SampledFrom([]int{0, 0, 1, MaxPictures - len(v.Pictures)}).Draw(t, "pictures apart")
	return v
}

func someReply(t *rapid.T) Reply {
	r := Reply{Version: Version, MadeBy: Maker{"Driploop", someText(t, MaxProgram, false, "version")}, ID: "r", Visit: rapid.StringMatching(`[A-Za-z0-9_-]{1,64}`).Draw(t, "visit"),
		Made: someCivil(t, "made"), Zone: someZone(t),
		Shop: Shop{someText(t, MaxShopName, false, "shop"), someText(t, MaxAddress, true, "address"), someText(t, MaxHours, true, "hours")}, More: someMore(t)}
	if rs := someReadings(t, journal.Tests()); len(rs) > 0 {
		r.Test = &ShopTest{At: someCivil(t, "at"), Zone: someZone(t), Readings: rs}
	}
	for _, lang := range []string{"en", "es", "ja"} {
		if rapid.Bool().Draw(t, lang) {
			if r.Advice == nil {
				r.Advice = map[string]string{}
			}
			r.Advice[lang] = "A " + someText(t, 400, true, "advice")
		}
	}
	for range rapid.IntRange(0, 3).Draw(t, "rounds") {
		p := ProposedRound{Code: rapid.SampledFrom(append(rounds.Usual(), rounds.FollowUps()...)).Draw(t, "code"), Rule: rapid.SampledFrom([]string{"FREQ=DAILY", "FREQ=WEEKLY;BYDAY=MO,TH", "FREQ=DAILY;COUNT=1"}).Draw(t, "rule"),
			Why: someText(t, MaxWhy, true, "why")}
		if rapid.Bool().Draw(t, "own") {
			p.Code, p.Title, p.Start = rounds.Own, "T "+someText(t, 50, false, "title"), someCivil(t, "start")
		}
		r.Rounds = append(r.Rounds, p)
	}
	for range rapid.IntRange(0, 3).Draw(t, "plan") {
		p := ProposedAnimals{Change: PlanHold, Species: "neon_tetra", Count: rapid.IntRange(0, 20).Draw(t, "count"), Why: someText(t, MaxWhy, true, "why")}
		if p.Count > 0 && rapid.Bool().Draw(t, "add") {
			n := rapid.IntRange(0, p.Count).Draw(t, "males")
			p.Change, p.Males = PlanAdd, &n
		}
		r.Plan = append(r.Plan, p)
	}
	return r
}

// twice holds a slip to the round trip: read as written, written again byte for byte,
// signed or not, and its parts as their schemas describe them.
func twice[T any](t *rapid.T, s shape, in T, write func(T, ed25519.PrivateKey) ([]byte, error), read func([]byte) (T, []working.Finding, error), later bool, signed func(T, Signature) T) {
	for _, key := range []ed25519.PrivateKey{nil, ed25519.NewKeyFromSeed(make([]byte, ed25519.SeedSize))} {
		first, err := write(in, key)
		if err != nil {
			t.Fatal(err)
		}
		got, found, err := read(first)
		if err != nil || (len(found) > 0) != later {
			t.Fatalf("reading what was written: %v %v", err, found)
		}
		want := in
		if key != nil {
			want = signed(in, Signature{Thumbprint(key.Public().(ed25519.PublicKey))})
		}
		if !reflect.DeepEqual(got, want) {
			t.Fatalf("wrote %+v\nread  %+v", want, got)
		}
		second, err := write(got, key)
		if err != nil || !bytes.Equal(first, second) {
			t.Fatalf("the second writing differs: %v, %d bytes, then %d", err, len(first), len(second))
		}
		if key != nil {
			continue // the same parts, and a signature
		}
		parts := unzip(t, first)
		validate(t, "manifest", parts[partManifest])
		validate(t, strings.TrimSuffix(s.part, ".json"), parts[s.part])
	}
}

func writeVisit(v Visit, key ed25519.PrivateKey) ([]byte, error) {
	var b bytes.Buffer
	err := WriteVisit(&b, v, key)
	return b.Bytes(), err
}

func writeReply(r Reply, key ed25519.PrivateKey) ([]byte, error) {
	var b bytes.Buffer
	err := WriteReply(&b, r, key)
	return b.Bytes(), err
}

func TestRoundTripOfVisitsAndReplies(t *testing.T) {
	const least = 500
	seen := map[string]int{}
	for seen["visits"] < least {
		rapid.Check(t, func(t *rapid.T) {
			v := someVisit(t)
			twice(t, visits, v, writeVisit, readVisit, v.More != nil, func(v Visit, s Signature) Visit { v.Signature = s; return v })
			seen["visits"]++
			seen["pictures"] += len(v.Pictures)
			seen["entries"] += len(v.Entries)
		})
	}
	for seen["replies"] < least {
		rapid.Check(t, func(t *rapid.T) {
			r := someReply(t)
			twice(t, replies, r, writeReply, readReply, r.More != nil, func(r Reply, s Signature) Reply { r.Signature = s; return r })
			seen["replies"]++
			seen["proposals"] += len(r.Rounds) + len(r.Plan)
		})
	}
	for what, n := range seen {
		if n < least {
			t.Errorf("%d %s, want at least %d", n, what, least)
		}
	}
	drill.Tally(t, "D2-50", "visits and replies, written and read again", seen["visits"]+seen["replies"], 0)
}

// Each limit of a visit holds at its value and one below, and refuses one above.
// Source: the limits are this project's own, see limits.go.
func TestVisitLimitsAtTheirBoundaries(t *testing.T) {
	head := `"id":"v1","made":"2026-11-30T09:00","zone":"+01:00","units":"metric","from":"2026-11-01","to":"2026-11-30"`
	saying := func(more string) []byte { return visits.saying("{" + head + more + "}") }
	list := func(name, item string, n int) []byte {
		return saying(`,"` + name + `":[` + strings.TrimSuffix(strings.Repeat(item+",", n), ",") + `]`)
	}
	entry := func(readings string) string {
		return `{"kind":"fed","at":"2026-11-02T08:00","zone":"+01:00","readings":[` + readings + `]}`
	}
	shown := func(pictures ...[]byte) []byte {
		var said []string
		var ps []piece
		for _, p := range pictures {
			said = append(said, `{"name":"`+pictureName(p)+`"}`)
			ps = append(ps, piece{name: pictureName(p), data: p})
		}
		return visits.holding(1, "{"+head+`,"pictures":[`+strings.Join(said, ",")+`]}`, ps...).bytes()
	}
	grey := func(i int) color.Color { return color.Gray{uint8(i * 9)} }
	tried := 0
	for _, c := range []struct {
		name string
		at   int
		make func(n int) []byte
		want working.Key
	}{
		{"bytes of the file", MaxVisit, func(n int) []byte {
			a := visits.with(piece{name: "a", data: []byte{}})
			a.pieces[2].data = noise(n-len(a.bytes()), 1)
			return visits.with(a.pieces[2]).bytes()
		}, CodeTooBig},
		{"bytes unpacked", MaxVisit, func(n int) []byte {
			a := visits.with()
			left := n - len(a.pieces[1].data)
			var ps []piece
			for i := 0; left > 0; i++ {
				data := make([]byte, min(left, 8_000_000))
				copy(data, noise(len(data)/5, int64(i)))
				ps = append(ps, piece{name: fmt.Sprint(i), method: deflated, data: data})
				left -= len(data)
			}
			last := &ps[len(ps)-1]
			last.data = last.data[:len(last.data)-len(visits.with(ps...).pieces[0].data)]
			return visits.with(ps...).bytes()
		}, CodeUnpacked},
		{"pictures", MaxPictures, func(n int) []byte {
			var ps [][]byte
			for i := range n {
				ps = append(ps, paint(8, 8, grey(i)))
			}
			return shown(ps...)
		}, CodeMany},
		{"bytes of a picture", MaxPicture, func(n int) []byte { return shown(stuffed(n, grey(1))) }, CodePicture},
		{"pixels of a picture", MaxSide, func(n int) []byte { return shown(paint(n, 3, grey(1))) }, CodePicture},
		{"entries", MaxEntries, func(n int) []byte { return list("entries", entry(""), n) }, CodeMany},
		{"readings", MaxReadings, func(n int) []byte {
			var all []string
			for i := range n {
				name := readingNames[i%len(readingNames)]
				all = append(all, `{"name":"`+name+fmt.Sprint(i)+`"}`)
			}
			return visits.sayingIn(2, "{"+head+`,"entries":[`+entry(strings.Join(all, ","))+`]}`)
		}, CodeMany},
		{"animals", MaxAnimals, func(n int) []byte { return list("stock", `{"count":1}`, n) }, CodeMany},
		{"wishes", MaxAnimals, func(n int) []byte { return list("wishes", `{"count":1}`, n) }, CodeMany},
		{"signs", MaxSigns, func(n int) []byte {
			return saying(`,"case":{"opened":"2026-11-02T08:00","signs":[` + strings.TrimSuffix(strings.Repeat(`{"sign":"x","seen":"2026-11-02T08:00"},`, n), ",") + `]}`)
		}, CodeMany},
		{"marks", MaxMarks, func(n int) []byte {
			p := paint(8, 8, grey(1))
			return visits.holding(1, "{"+head+`,"pictures":[{"name":"`+pictureName(p)+`","marks":[`+strings.TrimSuffix(strings.Repeat(`{"kind":"text","words":"x","points":[{"x":1,"y":2}]},`, n), ",")+`]}]}`,
				piece{name: pictureName(p), data: p}).bytes()
		}, CodeMany},
		{"questions", MaxQuestions, func(n int) []byte { return list("questions", `"?"`, n) }, CodeMany},
		{"runes of a question", MaxQuestion, func(n int) []byte { return list("questions", `"`+strings.Repeat("ñ", n)+`"`, 1) }, CodeLong},
		{"runes of the label", MaxLabel, func(n int) []byte { return saying(`,"label":"` + strings.Repeat("ñ", n) + `"`) }, CodeLong},
		{"runes of a name", MaxSaid, func(n int) []byte { return list("stock", `{"count":1,"name":"`+strings.Repeat("ñ", n)+`"}`, 1) }, CodeLong},
		{"animals of one group", maxCount, func(n int) []byte { return list("stock", fmt.Sprintf(`{"count":%d}`, n), 1) }, CodeNumber},
		{"runes of a note", journal.MaxNote, func(n int) []byte {
			return saying(`,"private":["notes"],"entries":[{"kind":"note","at":"2026-11-02T08:00","zone":"+01:00","note":"` + strings.Repeat("ñ", n) + `"}]`)
		}, CodeEntry},
		{"bytes of JSON", MaxVisitJSON, func(n int) []byte { return saying(strings.Repeat("\n", n-len(head)-2)) }, CodeJSONSize},
		{"values of JSON", MaxVisitValues, func(n int) []byte { return saying(`,"x":[1` + strings.Repeat(",1", n-9) + `]`) }, CodeJSONValues},
		{"bytes of a text", MaxVisitString, func(n int) []byte { return saying(`,"x":"` + strings.Repeat("z", n) + `"`) }, CodeString},
	} {
		for _, by := range []int{-1, 0, 1} {
			want := working.Key("")
			if by > 0 {
				want = c.want
			}
			_, _, err := readVisit(c.make(c.at + by))
			if got := codeOf(t, err); got != want {
				t.Errorf("%s, %d%+d: got %q (%v), want %q", c.name, c.at, by, got, err, want)
			}
			tried++
		}
	}
	drill.Tally(t, "D2-21", "visits at a limit, one below and one above", tried, 0)
}
