package parts

import (
	"flag"
	"fmt"
	"image/png"
	"os"
	"path/filepath"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/software"
	"fyne.io/fyne/v2/test"

	"example.org/driploop/screens/look"
)

var shots = flag.String("shots", "", "folder that the sample pages are written to as PNG")

// themed starts a headless program with our theme.
func themed(t *testing.T, v look.Variant, percent int) fyne.App {
	t.Helper()
	app := test.NewTempApp(t)
	retheme(t, app, v, percent)
	return app
}

func retheme(t *testing.T, app fyne.App, v look.Variant, percent int) {
	t.Helper()
	th, err := look.New(look.Options{Variant: v, TextScale: percent})
	if err != nil {
		t.Fatal(err)
	}
	app.Settings().SetTheme(th)
}

// words are the texts of a sample page in one language or kind of script.
type words struct {
	name                        string
	heading, purpose            string
	labels                      [3]string
	option, long                string
	number, beside              string
	bars                        [4]string
	verdict                     string
	lines                       []string
	signal, hazard, consequence string
	avoid                       []string
	ticks                       [3]string
	back, carry                 string
	steps                       [10]string
	waits                       string
	places                      [6]string
}

var english = words{
	name: "english", heading: "Stand and floor", purpose: "Will what it stands on carry the full tank, for years?",
	labels: [3]string{"Stand is", "Top", "Clear span"}, option: "Own furniture", long: "Own furniture with a chipboard top and no back",
	number: "68 kg", beside: "150 lb · like an adult standing on it, day and night",
	bars:    [4]string{"Top, long-term sag 2.6 of 3.0 mm", "Top, bending", "Legs, crushing and buckling", "Floor, average under the feet"},
	verdict: "Holds, but near the limit for sag.",
	lines:   []string{"A level board of 18 mm plywood under the tank brings sag to 48 %.", "Old chipboard that ever got wet: do not use it."},
	signal:  "WARNING", hazard: "A full tank cannot be moved.", consequence: "Lifting it filled breaks seams and backs.", avoid: []string{"Empty it before you move it."},
	ticks: [3]string{"Lights off, lid open a hand's width", "Bag closed and floating", "Fish into the tank, bag water down the drain"},
	back:  "Back", carry: "Carry on",
	steps:  [10]string{"Tank and place", "Kit list", "Stand and floor", "Rinse", "Place it dry", "Fill and treat", "Power on", "Settle", "First fish", "Home-coming"},
	waits:  "waits for: heater covered for 20 min",
	places: [6]string{"First fill", "Today", "Daybook", "Fish", "Look ahead", "Counter"},
}

var german = words{
	name: "german", heading: "Unterschrank und Fußbodentragfähigkeit", purpose: "Trägt der Unterschrank das vollständig gefüllte Aquarium über viele Jahre hinweg, ohne sich durchzubiegen?",
	labels: [3]string{"Aufstellungsmöbel ist", "Plattenwerkstoff und Dicke", "Freie Stützweite zwischen den Seitenwänden"}, option: "Selbstgebautes Möbelstück aus Spanplatten", long: "Wohnzimmerschrank mit mitteldichter Holzfaserplatte ohne Rückwand und ohne Mittelsteg",
	number: "1.234,5 kg", beside: "2.722 lb · ungefähr so viel wie ein Kleinwagen, der Tag und Nacht dort steht",
	bars:    [4]string{"Deckplatte, Langzeitdurchbiegung 2,6 von 3,0 mm", "Deckplatte, Biegespannung", "Seitenwände, Quetschung und Knickung", "Fußbodenbelastung, Durchschnitt unter den Stellfüßen"},
	verdict: "Hält, liegt aber nahe an der Durchbiegungsgrenze.",
	lines:   []string{"Eine ebene Sperrholzplatte von 18 mm unter dem Aquarium senkt die Durchbiegung auf 48 %.", "Donaudampfschifffahrtselektrizitätenhauptbetriebswerkbauunterbeamtengesellschaft."},
	signal:  "WARNUNG", hazard: "Ein gefülltes Aquarium darf nicht bewegt werden.", consequence: "Beim Anheben reißen die Silikonnähte, und der Rücken nimmt Schaden.", avoid: []string{"Vor jedem Umstellen vollständig entleeren.", "Zu zweit tragen."},
	ticks: [3]string{"Beleuchtung ausgeschaltet, Abdeckung eine Handbreit geöffnet", "Transportbeutel verschlossen und schwimmend", "Fische ins Aquarium setzen, das Beutelwasser in den Ausguss gießen"},
	back:  "Zurück zum vorherigen Schritt", carry: "Weiter zum nächsten Schritt",
	steps:  [10]string{"Aquarium und Standort", "Ausstattungsliste", "Unterschrank und Fußboden", "Abspülen", "Trocken aufstellen", "Befüllen und aufbereiten", "Stromversorgung einschalten", "Einlaufphase abwarten", "Erste Fische auswählen", "Heimkehr und Eingewöhnung"},
	waits:  "wartet auf: Heizstab seit mindestens zwanzig Minuten vollständig bedeckt",
	places: [6]string{"Ersteinrichtung", "Heute", "Aquarientagebuch", "Fischbestand", "Vorausschau", "Ladentheke"},
}

var chinese = words{
	name: "chinese", heading: "底柜与地板", purpose: "放置鱼缸的家具，能否在多年之内承受装满水之后的全部重量，而不发生弯曲或者断裂？",
	labels: [3]string{"放置于", "台面材料与厚度", "净跨度"}, option: "自有家具", long: "自有家具，刨花板台面，没有背板，也没有中间隔板，长期潮湿",
	number: "68 公斤", beside: "150 磅，相当于一个成年人日日夜夜站在上面",
	bars:    [4]string{"台面长期下垂，2.6 毫米，上限 3.0 毫米", "台面弯曲", "立柱压坏与屈曲", "地板，脚下平均"},
	verdict: "可以承受，但是下垂接近上限。",
	lines:   []string{"在鱼缸下面垫一块十八毫米厚的平整胶合板，可以把下垂降到百分之四十八。", "曾经受潮的旧刨花板：不要使用。"},
	signal:  "警告", hazard: "装满水的鱼缸不能移动。", consequence: "装满水时抬起会使接缝开裂，也会伤到背部。", avoid: []string{"移动之前先把水放空。"},
	ticks: [3]string{"关灯，盖子打开一掌宽", "袋子封好，浮在水面", "把鱼放进鱼缸，袋子里的水倒进下水道"},
	back:  "返回", carry: "继续",
	steps:  [10]string{"鱼缸与位置", "设备清单", "底柜与地板", "冲洗", "干放", "注水与处理", "通电", "静置", "第一批鱼", "回家"},
	waits:  "等待：加热棒没入水中二十分钟",
	places: [6]string{"初次注水", "今天", "日志", "鱼", "展望", "柜台"},
}

// samplePage builds one page that has every part on it.
func samplePage(w words) (page *Scroller, stick *Dipstick, nav *NavBar) {
	three := NewRow(
		NewChoice(ChoiceSpec{ID: "stand", Label: w.labels[0], Chosen: "own", Options: []Option{{"own", w.option}, {"long", w.long}}}, nil),
		NewField(FieldSpec{ID: "top", Label: w.labels[1], Text: "18", Unit: "mm", Mark: w.option, Proposed: true}),
		NewField(FieldSpec{ID: "span", Label: w.labels[2], Text: "600", Unit: "mm"}))
	refused := NewField(FieldSpec{ID: "bad", Label: w.labels[1], Text: "3 miles", Unit: "mm", Error: w.lines[0]})
	working := NewWorking(WorkingSpec{Show: w.carry, Hide: w.back, Copy: w.option, Open: true, Parts: []WorkingPart{
		{Heading: w.bars[1], Name: w.bars[0], Equation: "δ = 5 q L⁴ / (384 E I)", Filled: "δ = 5 · 1.09 · 600⁴ / (384 · 1800 · 148 000)", Value: "2.6 mm", Note: w.lines[0]},
		{Name: w.bars[2], Value: "0.07", Note: w.purpose}}})
	page = NewScroller(10,
		NewText(TextSpec{w.heading, Heading}),
		NewText(TextSpec{w.purpose, SoftBody}),
		three,
		NewNumber(NumberSpec{Name: w.labels[1], Number: w.number, Beside: w.beside}),
		NewBar(BarSpec{Name: w.bars[0], Text: "86 %", Share: 0.86, State: Act, Word: w.ticks[0][:4]}),
		NewBar(BarSpec{Name: w.bars[1], Text: "41 %", Share: 0.41, State: Steady}),
		NewBar(BarSpec{Name: w.bars[2], Text: "7 %", Share: 0.07}),
		NewBar(BarSpec{Name: w.bars[3], Text: "123 %", Share: 1.23, State: Act, Word: w.option}),
		NewButton(ButtonSpec{Label: w.carry, Kind: Quiet, Disclosure: Shut}, nil),
		NewVerdict(VerdictSpec{State: Wait, Title: w.verdict, Lines: w.lines}),
		NewSafety(SafetySpec{Severity: Warning, Word: w.signal, Hazard: w.hazard, Consequence: w.consequence, Avoidance: w.avoid}, nil),
		NewEnds(NewButton(ButtonSpec{Label: w.back}, nil), NewButton(ButtonSpec{Label: w.carry, Kind: Primary}, nil)),
		refused,
		NewTick(TickSpec{Text: w.ticks[0], Done: true}, nil),
		NewTick(TickSpec{Text: w.ticks[1]}, nil),
		NewTick(TickSpec{Text: w.ticks[2], Barred: w.waits}, nil),
		NewNumber(NumberSpec{Name: w.labels[0], Number: w.number, Beside: w.beside, State: Act, Word: w.verdict}),
		working,
		NewSafety(SafetySpec{Severity: Danger, Word: w.signal, Hazard: w.hazard, Consequence: w.consequence, Avoidance: w.avoid, Confirm: w.ticks[2]}, nil),
		NewSafety(SafetySpec{Severity: Caution, Word: w.signal, Hazard: w.hazard}, nil),
		NewSafety(SafetySpec{Severity: Notice, Word: w.signal, Hazard: w.hazard}, nil),
		NewPanel(w.heading, NewTick(TickSpec{Text: w.ticks[1]}, nil), NewTick(TickSpec{Text: w.ticks[2], Caption: w.lines[1]}, nil)),
		NewDayHeading(w.purpose),
		NewEntryRow(EntryRowSpec{Time: "08:10", Kind: w.steps[0], Text: w.lines[0]}, nil),
		NewEntryRow(EntryRowSpec{Time: "07:55", Kind: w.steps[1], Text: w.beside, Note: w.ticks[1], State: Act}, nil),
		kit(KitRowSpec{Name: w.option, Size: "50 W", Why: w.lines[0], Price: "12.50", Unit: "€", State: Wait, Word: w.steps[5]}),
		kit(KitRowSpec{Name: w.labels[0], Size: w.beside, Why: w.purpose, Have: true, Price: "x", Unit: "€", Refuse: w.hazard}),
		NewFlow(NewButton(ButtonSpec{Label: w.places[0]}, nil), NewButton(ButtonSpec{Label: w.places[2], Busy: true}, nil), NewButton(ButtonSpec{Label: w.places[4], Off: true}, nil)),
		NewText(TextSpec{w.lines[1], Refusal}), NewSpace(6), NewText(TextSpec{w.lines[1], Note}),
	)
	ds := DipstickSpec{Current: 2, Still: true}
	for i, s := range w.steps {
		st := DipStep{Label: s, Waits: w.waits}
		switch {
		case i == 0:
			st.State = StepDone
		case i == 1:
			st.State, st.Word = StepReopened, w.back
		case i == 2:
			st.State = StepOpen
		}
		ds.Steps = append(ds.Steps, st)
	}
	stick = NewDipstick(ds, nil)
	ns := NavSpec{Tank: w.option + ", 57 L", Current: "0", More: w.carry, Actions: []Action{{"undo", w.back, IconUndo, false}, {"redo", w.carry, IconRedo, true}, {"settings", w.option, IconSettings, false}, {"help", w.back, IconHelp, false}}}
	for i, l := range w.places {
		ns.Places = append(ns.Places, Place{fmt.Sprint(i), l})
	}
	return page, stick, NewNavBar(ns)
}

func kit(s KitRowSpec) *KitRow { return NewKitRow(s) }

// TestSamplePagesAreDrawn draws every part in both variants and at both ends of
// the text scale, and keeps the pictures when asked.
func TestSamplePagesAreDrawn(t *testing.T) {
	for i, w := range []words{english, german, chinese} {
		for _, v := range []look.Variant{look.Light, look.Dark} {
			for j, percent := range []int{100, 150} {
				if *shots == "" && (i != j || i != int(v-look.Light)) {
					continue // a light page at 100 % and a dark one at 150 % stand for all
				}
				themed(t, v, percent)
				page, stick, nav := samplePage(w)
				c := software.NewCanvas()
				c.SetPadded(false)
				c.SetContent(&fyne.Container{Layout: sampleLayout{}, Objects: []fyne.CanvasObject{nav, stick, page, NewSpace(1)}})
				c.Resize(fyne.NewSize(1280, 800))
				k := float32(percent) / 100
				c.Resize(fyne.NewSize(1280, navHeight*k+page.sheet.MinSize().Height))
				img := c.Capture()
				seen := map[any]bool{}
				for y := 0; y < img.Bounds().Dy(); y += 7 {
					for x := 0; x < img.Bounds().Dx(); x += 5 {
						seen[img.At(x, y)] = true
					}
				}
				if len(seen) < 20 {
					t.Errorf("%s: only %d colours were drawn", w.name, len(seen))
				}
				if *shots == "" {
					continue
				}
				f, err := os.Create(filepath.Join(*shots, fmt.Sprintf("parts-%s-%s-%d.png", w.name, map[look.Variant]string{look.Light: "light", look.Dark: "dark"}[v], percent)))
				if err != nil {
					t.Fatal(err)
				}
				if err := png.Encode(f, img); err != nil {
					t.Fatal(err)
				}
				if err := f.Close(); err != nil {
					t.Fatal(err)
				}
			}
		}
	}
}

// sampleLayout sets bar, dipstick and page as the program's window does.
type sampleLayout struct{}

func (sampleLayout) MinSize([]fyne.CanvasObject) fyne.Size { return fyne.NewSize(640, 480) }

func (sampleLayout) Layout(o []fyne.CanvasObject, s fyne.Size) {
	h := heightOf(o[0], s.Width)
	place(o[0], 0, 0, s.Width, h)
	wide := max(190, o[1].(*Dipstick).WidthNeeded())
	place(o[1], 750-wide-24, h, wide, min(s.Height-h, 741))
	place(o[2], 754, h+20, 504, s.Height-h-20)
}
