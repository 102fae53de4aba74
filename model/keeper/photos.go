package keeper

import (
	"context"
	"encoding/json"
	"strconv"

	"example.org/driploop/model/journal"
	"example.org/driploop/model/photo"
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/store"
	"example.org/driploop/model/working"
)

// TakenFrom says who told when a picture was taken.
type TakenFrom string

// The tellers.
const (
	TakenUnknown  TakenFrom = ""
	TakenByCamera TakenFrom = "exif"
	TakenByFile   TakenFrom = "file" // when the file was last written, accepted by the person
	TakenByPerson TakenFrom = "person"
)

// Photo is a picture in the daybook of a tank, with what a person did to it. The
// original is never changed.
type Photo struct {
	ID, Tank string
	Entry    string // the entry it belongs to, or empty
	Fish     string // the fish it shows, or empty
	Hash     string // of the original: photo.Hash
	Format   photo.Format
	Bytes    int64
	// Width and Height are pixels of the original as it lies in its file, zero
	// where it cannot be read; Orientation is that of photo.Info.
	Width, Height int
	Orientation   int
	Turned        int // quarter turns clockwise by the person, 0 to 3
	Taken         journal.Civil
	Zone          string // offset of that clock, empty where it is not known
	TakenFrom     TakenFrom
	Place         *photo.Place // nil where it is not known
	Name          string       // of the file it came from
	Caption       string
	White         *photo.Patch // on the picture as shown; nil where none is set
	Added         string       // UTC instant
	Problem       working.Key  // why it cannot be shown, or empty
	Marks         []photo.Mark // on the picture as shown, in order of making
}

// Shown gives the sides of the picture as it is shown: upright and turned.
func (p Photo) Shown() (width, height int) {
	width, height = photo.Info{Width: p.Width, Height: p.Height, Orientation: p.Orientation}.Upright()
	if p.Turned%2 == 1 {
		return height, width
	}
	return width, height
}

// PhotoFilter chooses pictures; empty fields choose all.
type PhotoFilter struct {
	Entry    string
	Fish     string
	Sick     string // the case that the entry of the picture belongs to
	From, To string // civil dates, 2026-11-25, both included; pictures without a time are then left out
	Undated  bool   // only those without a time
	NoFish   bool   // only those that show no fish by name
}

func (f PhotoFilter) takes(p Photo, sickOf map[string]string) bool {
	day := p.Taken.Day()
	switch {
	case f.Entry != "" && p.Entry != f.Entry,
		f.Fish != "" && p.Fish != f.Fish,
		f.NoFish && p.Fish != "",
		f.Sick != "" && sickOf[p.Entry] != f.Sick,
		f.Undated && p.Taken != "",
		(f.From != "" || f.To != "") && p.Taken == "",
		f.From != "" && day < f.From,
		f.To != "" && day > f.To:
		return false
	}
	return true
}

// Photos lists pictures of a tank that are not in the bin, the earliest first,
// those without a time last.
func (k *Keeper) Photos(ctx context.Context, tank string, f PhotoFilter) ([]Photo, error) {
	where := map[string]any{"tank": tank, "deleted": nil}
	if f.Entry != "" {
		where["entry"] = f.Entry
	}
	rows, err := k.st.Load(ctx, "photo", where, "taken, added, id")
	if err != nil {
		return nil, err
	}
	sickOf := map[string]string{}
	if f.Sick != "" {
		entries, err := k.st.Load(ctx, "entry", map[string]any{"tank": tank, "sick": f.Sick, "deleted": nil}, "")
		if err != nil {
			return nil, err
		}
		for _, e := range entries {
			sickOf[text(e["id"])] = f.Sick
		}
	}
	var out, undated []Photo
	for _, row := range rows {
		p, err := photoOf(row)
		if err != nil {
			return nil, err
		}
		if !f.takes(p, sickOf) {
			continue
		}
		if p.Taken == "" {
			undated = append(undated, p)
		} else {
			out = append(out, p)
		}
	}
	out = append(out, undated...)
	return out, k.addMarks(ctx, out)
}

// addMarks reads the marks of pictures.
func (k *Keeper) addMarks(ctx context.Context, photos []Photo) error {
	if len(photos) == 0 {
		return nil
	}
	where := map[string]any{}
	if len(photos) == 1 {
		where["photo"] = photos[0].ID
	}
	rows, err := k.st.Load(ctx, "mark", where, "id")
	if err != nil {
		return err
	}
	by := map[string]int{}
	for i, p := range photos {
		by[p.ID] = i
	}
	for _, row := range rows {
		i, ok := by[text(row["photo"])]
		if !ok {
			continue
		}
		m, err := markOf(row)
		if err != nil {
			return err
		}
		photos[i].Marks = append(photos[i].Marks, m.Turned(photos[i].Turned))
	}
	return nil
}

// Photo reads one picture that is not in the bin. Errors: *working.Refusal
// where there is none.
func (k *Keeper) Photo(ctx context.Context, tank, id string) (Photo, error) {
	return k.photo(ctx, map[string]any{"tank": tank, "id": id, "deleted": nil})
}

func (k *Keeper) photo(ctx context.Context, where map[string]any) (Photo, error) {
	rows, err := k.st.Load(ctx, "photo", where, "")
	if err != nil {
		return Photo{}, err
	}
	if len(rows) == 0 {
		return Photo{}, working.Refuse("photo", "refuse.photo.none")
	}
	p, err := photoOf(rows[0])
	if err != nil {
		return Photo{}, err
	}
	one := []Photo{p}
	err = k.addMarks(ctx, one)
	return one[0], err
}

func photoOf(row store.Row) (Photo, error) {
	n := func(name string) int {
		v, _ := row[name].(int64)
		return int(v)
	}
	p := Photo{ID: text(row["id"]), Tank: text(row["tank"]), Entry: text(row["entry"]), Fish: text(row["fish"]), Hash: text(row["hash"]),
		Format: photo.Format(text(row["format"])), Bytes: int64(n("bytes")), Width: n("width"), Height: n("height"), Orientation: n("orientation"),
		Turned: n("turned"), Taken: journal.Civil(text(row["taken"])), Zone: text(row["zone"]), TakenFrom: TakenFrom(text(row["taken_from"])),
		Name: text(row["name"]), Caption: text(row["caption"]), Added: text(row["added"]), Problem: working.Key(text(row["problem"]))}
	if lat, long := text(row["latitude"]), text(row["longitude"]); lat != "" && long != "" {
		x, errX := strconv.ParseFloat(lat, 64)
		y, errY := strconv.ParseFloat(long, 64)
		if errX == nil && errY == nil {
			p.Place = &photo.Place{Latitude: x, Longitude: y}
		}
	}
	if s := text(row["white"]); s != "" {
		var w photo.Patch
		if err := json.Unmarshal([]byte(s), &w); err != nil {
			return Photo{}, &store.OpError{Code: store.CodeDamaged, Op: "load", Table: "photo", Column: "white", Err: err}
		}
		w = w.Turned(p.Turned)
		p.White = &w
	}
	return p, nil
}

func markOf(row store.Row) (photo.Mark, error) {
	points, err := photo.PointsOf(text(row["points"]))
	if err != nil {
		return photo.Mark{}, &store.OpError{Code: store.CodeDamaged, Op: "load", Table: "mark", Column: "points", Err: err}
	}
	return photo.Mark{ID: text(row["id"]), Kind: photo.MarkKind(text(row["kind"])), Points: points, Words: text(row["words"]),
		Measure: quantity.Measure{Number: text(row["text"]), Unit: quantity.UnitCode(text(row["unit"]))}}, nil
}
