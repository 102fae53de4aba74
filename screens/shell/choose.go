package shell

import (
	"context"
	"errors"
	"image"
	"io/fs"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"strings"

	"fyne.io/fyne/v2"

	"example.org/driploop/i18n"
	"example.org/driploop/model/photo"
	"example.org/driploop/model/working"
	"example.org/driploop/screens/parts"
	"example.org/driploop/screens/picture"
)

// chooser is the panel in which files are chosen, one or many.
type chooser struct {
	s      *Shell
	many   bool
	kinds  []fileKind
	take   func(paths []string)
	dir    string
	all    []folderEntry // as read
	shown  []int         // of all, in the order of the rows
	picked map[string]bool
	kind   string
	newest bool
	hidden bool
	wrong  working.Key // why the folder cannot be shown
	asked  int
	thumbs *picture.Thumbs

	crumbs  *parts.Flow
	path    *parts.Field
	drive   *parts.Choice // where paths begin in several places
	kindBox *parts.Choice
	order   *parts.Choice
	hide    *parts.Tick
	list    *parts.Files
	state   *parts.Text
	taking  *parts.Button
	every   *parts.Button
	shut    func()
}

// fileKind is what the list is narrowed down to.
type fileKind struct {
	code, label string
	endings     endings
}

// settingFolder keeps where pictures were chosen last, settingFiles where other files
// were: what people hand over lies elsewhere than their pictures.
const (
	settingFolder = "chooser_folder"
	settingFiles  = "chooser_folder_files"
)

// thumbMost is the largest file of which a small picture is shown in the list: a
// larger one takes too long for what it tells. Judgement.
const thumbMost = 16 << 20

// chooseFiles opens the panel. The first of kinds holds all of the others.
func (s *Shell) chooseFiles(title working.Key, kinds []fileKind, many bool, take func(paths []string)) {
	c := &chooser{s: s, many: many, kinds: kinds, take: take, kind: kinds[0].code, newest: true, picked: map[string]bool{}}
	decoder := photo.NewDecoder(photo.Usual())
	c.thumbs = picture.NewThumbs(func(_ context.Context, path string, side int) ([]byte, error) {
		data, err := os.ReadFile(path)
		if err != nil {
			return nil, err
		}
		t, _, err := decoder.Thumb(s.aside.ctx, data, side)
		return t.JPEG, err
	}, s.aside.run, s.aside.post)
	c.crumbs = parts.NewFlow()
	c.path = parts.NewField(parts.FieldSpec{ID: "path", Label: s.t("page.choose.path")})
	c.path.OnEnter = c.typed
	c.drive = parts.NewChoice(parts.ChoiceSpec{}, func(root string) { c.goTo(root, "") })
	c.kindBox = parts.NewChoice(parts.ChoiceSpec{}, func(code string) { c.kind = code; c.show() })
	c.order = parts.NewChoice(parts.ChoiceSpec{}, func(code string) { c.newest = code == "newest"; c.show() })
	c.hide = parts.NewTick(parts.TickSpec{ID: "hidden", Text: s.t("page.choose.hidden")}, func(done bool) { c.hidden = done; c.show() })
	c.list = parts.NewFiles("files")
	c.list.Row, c.list.OnPick, c.list.OnRun, c.list.OnAll = c.row, c.pick, c.run, c.pickAll
	c.list.OnOpen, c.list.OnUp = c.open, func() { c.goTo(filepath.Dir(c.dir), filepath.Base(c.dir)) }
	c.list.Image = c.image
	c.state = parts.NewText(parts.TextSpec{})
	c.taking = parts.NewButton(parts.ButtonSpec{ID: "take", Kind: parts.Primary}, c.done)
	c.every = parts.NewButton(parts.ButtonSpec{ID: "all", Label: s.t("page.choose.all")}, c.pickAll)
	buttons := []fyne.CanvasObject{c.taking}
	if many {
		buttons = append(buttons, c.every, parts.NewButton(parts.ButtonSpec{ID: "whole", Label: s.t("page.choose.whole")}, func() { c.leave([]string{c.dir}) }))
	}
	buttons = append(buttons, parts.NewButton(parts.ButtonSpec{ID: "cancel", Label: s.t("label.cancel")}, func() { c.shut() }))
	row := []fyne.CanvasObject{c.order}
	if len(s.o.Roots()) > 1 {
		row = append(row, c.drive)
	}
	if len(kinds) > 1 {
		row = append([]fyne.CanvasObject{c.kindBox}, row...)
	}
	row = append(row, parts.NewColumn(0, parts.NewSpace(24), c.hide))
	head := parts.NewColumn(6, parts.NewText(parts.TextSpec{Text: s.t(title), Role: parts.Section}), c.crumbs, c.path, parts.NewRow(row...))
	foot := parts.NewColumn(6, c.state, parts.NewFlow(buttons...))
	sheet := parts.NewFramed(head, c.list, foot)
	c.shut = s.panel(sheet, sheet, chooserWidth, func(shut func()) { sheet.Keys.Back = shut }, nil)
	c.goTo(c.begin(), "")
	if cv := s.canvas(); cv != nil {
		cv.Focus(c.list)
	}
}

// chooserWidth leaves room for long names. Judgement.
const chooserWidth = 760

// setting is where it is kept in which folder choosing ended.
func (c *chooser) setting() string {
	for e := range c.kinds[0].endings {
		if !pictureEndings[e] {
			return settingFiles
		}
	}
	return settingFolder
}

// begin is where choosing begins: where it ended last, else the person's pictures, or
// their documents for other files.
func (c *chooser) begin() string {
	name := c.setting()
	if last, ok, err := c.s.o.Keeper.Setting(context.Background(), name); err == nil && ok && isDir(last) {
		return last
	}
	if name == settingFiles {
		return c.s.folder()
	}
	home, err := os.UserHomeDir()
	if err != nil {
		return os.TempDir()
	}
	if d := filepath.Join(home, "Pictures"); isDir(d) {
		return d
	}
	return home
}

// goTo reads a folder and shows it, with the keys at a name where it has one.
func (c *chooser) goTo(dir, at string) {
	c.asked++
	asked := c.asked
	c.dir, c.all, c.wrong, c.picked = dir, nil, "page.choose.reading", map[string]bool{}
	c.show()
	var list []folderEntry
	var err error
	c.s.aside.do(func(ctx context.Context) { list, err = readFolder(ctx, dir, c.kinds[0].endings) }, func() {
		if asked != c.asked {
			return // one has gone on
		}
		switch {
		case errors.Is(err, fs.ErrPermission):
			c.wrong = "page.choose.forbidden"
		case errors.Is(err, fs.ErrNotExist):
			c.wrong = "page.choose.gone"
		case err != nil:
			c.wrong = "page.choose.unreadable"
		default:
			c.all, c.wrong = list, ""
		}
		c.show()
		for row, i := range c.shown {
			if c.all[i].name == at {
				c.list.GoTo(row)
			}
		}
	})
}

// typed goes to the folder typed, or picks the file.
func (c *chooser) typed() {
	path := typedPath(c.path.Text(), c.dir)
	info, err := os.Stat(path)
	if err != nil {
		f := c.path.Spec()
		f.Text, f.Error = c.path.Text(), c.s.t("page.choose.no_such")
		c.path.Set(f)
		return
	}
	if info.IsDir() {
		c.goTo(path, "")
		if cv := c.s.canvas(); cv != nil {
			cv.Focus(c.list)
		}
		return
	}
	c.leave([]string{path})
}

// kindOf is the kind that is shown.
func (c *chooser) kindOf() fileKind {
	for _, k := range c.kinds {
		if k.code == c.kind {
			return k
		}
	}
	return c.kinds[0]
}

// show narrows the list down, sorts it and shows it.
func (c *chooser) show() {
	s := c.s
	var crumbs []fyne.CanvasObject
	way := crumbsOf(c.dir)
	const most = 6 // judgement: a line or two
	for i, at := range way {
		if len(way) > most && i > 0 && i <= len(way)-most {
			continue
		}
		crumbs = append(crumbs, parts.NewButton(parts.ButtonSpec{ID: "crumb-" + strconv.Itoa(i), Label: at.name, Kind: parts.Quiet}, func() {
			c.goTo(at.path, "")
			if cv := s.canvas(); cv != nil {
				cv.Focus(c.list)
			}
		}))
	}
	c.crumbs.Set(crumbs...)
	f := c.path.Spec()
	f.Text, f.Error = c.dir, ""
	c.path.Set(f)
	kinds := parts.ChoiceSpec{ID: "kind", Label: s.t("page.choose.kind"), Chosen: c.kind}
	for _, k := range c.kinds {
		kinds.Options = append(kinds.Options, parts.Option{Code: k.code, Label: k.label})
	}
	c.kindBox.Set(kinds)
	roots := s.o.Roots()
	drive := parts.ChoiceSpec{ID: "drive", Label: s.t("page.choose.drive"), Chosen: rootOf(c.dir, roots)}
	for _, r := range roots {
		drive.Options = append(drive.Options, parts.Option{Code: r, Label: r})
	}
	c.drive.Set(drive)
	order := parts.ChoiceSpec{ID: "order", Label: s.t("page.choose.order"), Chosen: "name",
		Options: []parts.Option{{Code: "newest", Label: s.t("page.choose.newest")}, {Code: "name", Label: s.t("page.choose.by_name")}}}
	if c.newest {
		order.Chosen = "newest"
	}
	c.order.Set(order)
	h := c.hide.Spec()
	h.Done = c.hidden
	c.hide.Set(h)
	sortEntries(c.all, c.newest)
	c.shown = c.shown[:0]
	kept := map[string]bool{} // what is out of sight is not taken
	for i, e := range c.all {
		if e.hidden && !c.hidden || !e.folder && !c.kindOf().endings[strings.ToLower(filepath.Ext(e.name))] {
			continue
		}
		c.shown = append(c.shown, i)
		if c.picked[e.name] {
			kept[e.name] = true
		}
	}
	c.picked = kept
	c.list.Set(len(c.shown))
	c.count()
}

// files is how many files are shown.
func (c *chooser) files() int {
	n := 0
	for _, i := range c.shown {
		if !c.all[i].folder {
			n++
		}
	}
	return n
}

// count says how many are chosen.
func (c *chooser) count() {
	w := c.s.present.W
	words, role := w.N("n.choose_picked", float64(len(c.picked)), i18n.Args{"Of": c.files()}), parts.Note
	switch {
	case c.wrong == "page.choose.reading":
		words = c.s.t(c.wrong)
	case c.wrong != "":
		words, role = c.s.t(c.wrong), parts.Refusal
	case len(c.shown) == 0:
		words = c.s.t("page.choose.empty")
	}
	if c.wrong == "" && c.many {
		words = i18n.Sentences(words, c.s.t("page.choose.keys"))
	}
	c.state.Set(parts.TextSpec{Text: words, Role: role})
	label := w.N("n.choose_take", float64(len(c.picked)), nil)
	if !c.many {
		label = c.s.t("page.choose.take_one")
	}
	c.taking.Set(parts.ButtonSpec{ID: "take", Label: label, Kind: parts.Primary, Off: len(c.picked) == 0})
	c.every.Set(parts.ButtonSpec{ID: "all", Label: c.s.t("page.choose.all"), Off: c.files() == 0})
	c.list.Changed()
}

func (c *chooser) row(i int) parts.FileRow {
	e, w := c.all[c.shown[i]], c.s.present.W
	r := parts.FileRow{Name: e.name, Folder: e.folder, Picked: c.picked[e.name]}
	if !e.folder {
		const mega, kilo = 1e6, 1e3
		args := i18n.Args{"Size": w.Number(math.Round(float64(e.size)/mega*10)/10, 4), "Day": w.DateTime(e.at.In(c.s.o.Now().Location()))}
		key := working.Key("page.choose.beside")
		if e.size < mega {
			args["Size"], key = w.Number(math.Ceil(float64(e.size)/kilo), 4), "page.choose.beside_small"
		}
		r.Beside = w.T(key, args)
	}
	return r
}

// image is the small picture of a row, where making one is cheap.
func (c *chooser) image(i, wide, high int) image.Image {
	e := c.all[c.shown[i]]
	switch strings.ToLower(filepath.Ext(e.name)) {
	case ".jpg", ".jpeg", ".png", ".webp":
	default:
		return nil
	}
	if e.size > thumbMost {
		return nil
	}
	img, _ := c.thumbs.Get(picture.Key{Hash: filepath.Join(c.dir, e.name), W: wide, H: high}, c.list.Changed)
	return img
}

func (c *chooser) pick(i int) {
	name := c.all[c.shown[i]].name
	on := !c.picked[name]
	if !c.many {
		clear(c.picked)
	}
	if on {
		c.picked[name] = true
	} else {
		delete(c.picked, name)
	}
	c.count()
}

func (c *chooser) run(from, to int) {
	if !c.many {
		return
	}
	for _, i := range c.shown[from : to+1] {
		if e := c.all[i]; !e.folder {
			c.picked[e.name] = true
		}
	}
	c.count()
}

// pickAll chooses all that are shown, or lets go of them when all are chosen.
func (c *chooser) pickAll() {
	if len(c.picked) > 0 && len(c.picked) == c.files() {
		clear(c.picked)
		c.count()
		return
	}
	if len(c.shown) > 0 {
		c.run(0, len(c.shown)-1)
	}
}

// open goes into a folder, or takes what is chosen, the file itself where nothing is.
func (c *chooser) open(i int) {
	e := c.all[c.shown[i]]
	if e.folder {
		c.goTo(filepath.Join(c.dir, e.name), "")
		return
	}
	if len(c.picked) == 0 {
		c.pick(i)
	}
	c.done()
}

// done takes what is chosen, in the order of the list.
func (c *chooser) done() {
	var paths []string
	for _, i := range c.shown {
		if e := c.all[i]; c.picked[e.name] {
			paths = append(paths, filepath.Join(c.dir, e.name))
		}
	}
	if len(paths) > 0 {
		c.leave(paths)
	}
}

// leave shuts the panel, remembers where it was, and hands on what was chosen.
func (c *chooser) leave(paths []string) {
	c.shut()
	if c.s.o.Keeper.ReadOnly() == nil {
		dir, name := c.dir, c.setting()
		c.s.work(func(ctx context.Context) error { return c.s.o.Keeper.SetSetting(ctx, name, dir) }, func(error) {}) // a convenience
	}
	c.take(paths)
}
