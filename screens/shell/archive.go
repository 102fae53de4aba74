package shell

import (
	"context"
	"io"
	"path/filepath"
	"strings"
	"time"

	"fyne.io/fyne/v2"

	"example.org/driploop/i18n"
	"example.org/driploop/model/keeper"
	"example.org/driploop/model/slip"
	"example.org/driploop/model/working"
	"example.org/driploop/screens/nav"
	"example.org/driploop/screens/paper"
	"example.org/driploop/screens/parts"
)

// archiveEnding marks an archive.
const archiveEnding = slip.EndingArchive

// outAndIn is the menu of what leaves the daybook and comes into it whole.
func (s *Shell) outAndIn() *fyne.Menu {
	return fyne.NewMenu(s.t("menu.out_in"), fyne.NewMenuItem(s.t("menu.archive"), s.ShowArchive), fyne.NewMenuItem(s.t("menu.archive_take"), func() { s.choose("page.choose.archive", archiveEnding, s.takeArchive) }),
		fyne.NewMenuItem(s.t("menu.intake"), func() { s.choose("page.choose.table", tableEnding, s.takeTable) }), fyne.NewMenuItemSeparator(), fyne.NewMenuItem(s.t("menu.copies"), s.ShowCopies))
}

// choose asks for a file by its ending.
func (s *Shell) choose(title working.Key, ending string, take func(path string)) {
	s.chooseFiles(title, []fileKind{{"all", "", endings{ending: true}}}, false, func(paths []string) { take(paths[0]) })
}

// buttons is a row of a button that does and one that leaves; it gives the first
// the focus.
func (s *Shell) buttons(id string, label working.Key, do func(), leave func()) (row fyne.CanvasObject, focus func()) {
	yes := parts.NewButton(parts.ButtonSpec{ID: id, Label: s.t(label), Kind: parts.Primary}, do)
	return parts.NewFlow(yes, parts.NewButton(parts.ButtonSpec{ID: "cancel", Label: s.t("label.cancel")}, leave)), func() {
		if c := s.canvas(); c != nil {
			c.Focus(yes)
		}
	}
}

// title is the name of a menu's item as a heading: without the dots that say that a
// panel comes.
func (s *Shell) title(k working.Key) string { return strings.TrimSuffix(s.t(k), "…") }

func (s *Shell) bodyText(text string) fyne.CanvasObject {
	return parts.NewText(parts.TextSpec{Text: text, Role: parts.Body})
}

// ShowArchive offers to write the whole daybook into one file.
func (s *Shell) ShowArchive() {
	path := unused(filepath.Join(s.folder(), "driploop-"+s.o.Now().Format(time.DateOnly)+archiveEnding))
	without := false
	var shut func()
	tick := parts.NewTick(parts.TickSpec{ID: "without_place", Text: s.t("page.archive.without_place")}, func(done bool) { without = done })
	save := func() {
		shut()
		s.saveArchive(path, without)
	}
	row, focus := s.buttons("save", "page.archive.save", save, func() { shut() })
	shut = s.dialog(s.title("menu.archive"), parts.NewColumn(10, s.bodyText(s.t("page.archive.what")), s.bodyText(s.present.W.T("page.archive.where", i18n.Args{"Path": path})),
		tick, s.bodyText(s.t("page.archive.place_why"))), row)
	focus()
}

func (s *Shell) saveArchive(path string, withoutPlace bool) {
	var did keeper.Written
	p := s.present
	o := keeper.ArchiveOptions{Language: p.W.Language(), WithoutPlace: withoutPlace, Page: func(w io.Writer, c keeper.Contents) error { return paper.Archive(w, p, c) }}
	s.long(s.t("page.archive.saving"), func(ctx context.Context, progress func(done, total int64)) (err error) {
		did, err = s.o.Keeper.SaveArchive(ctx, path, o, progress)
		return err
	}, func(err error) {
		if err != nil {
			s.fail(err)
			return
		}
		lines := []string{p.W.T("page.fill.saved", i18n.Args{"Path": path})}
		if n := len(did.Lost); n > 0 {
			lines = append(lines, p.W.N("page.archive.without", float64(n), i18n.Args{"Names": strings.Join(did.Lost, ", ")}))
		}
		s.say(i18n.Sentences(lines...), "", nil)
	})
}

// takeArchive shows what an archive holds, and takes it when the person says so.
func (s *Shell) takeArchive(path string) {
	var p keeper.ArchivePreview
	s.long(s.t("page.archive.reading"), func(ctx context.Context, _ func(done, total int64)) (err error) {
		p, err = s.o.Keeper.ReadArchive(ctx, path)
		return err
	}, func(err error) {
		if err != nil {
			s.fail(err)
			return
		}
		s.offerArchive(p)
	})
}

func (s *Shell) offerArchive(p keeper.ArchivePreview) {
	var shut func()
	list := []fyne.CanvasObject{}
	for _, line := range s.present.Incoming(p) {
		list = append(list, s.bodyText(line))
	}
	if p.Taking() == 0 {
		row, focus := s.buttons("close", "label.close", func() { shut() }, func() { shut() })
		shut = s.dialog(s.title("menu.archive_take"), parts.NewColumn(8, append(list, s.bodyText(s.t("refuse.keeper.archive_here")))...), row)
		focus()
		return
	}
	row, focus := s.buttons("take", "page.archive.take", func() {
		shut()
		var did keeper.TakenArchive
		s.long(s.t("page.archive.taking"), func(ctx context.Context, progress func(done, total int64)) (err error) {
			did, err = s.o.Keeper.TakeArchive(ctx, p.Path, progress)
			return err
		}, func(err error) {
			if err != nil {
				s.fail(err)
				return
			}
			s.Go(nav.Route{Place: nav.Start})
			undo, label := s.undoList, s.t("label.undo")
			if did.Snapshot != "" {
				undo, label = nil, ""
			}
			s.changed()
			s.say(i18n.Sentences(s.present.Taken(did)...), label, undo)
		})
	}, func() { shut() })
	shut = s.dialog(s.title("menu.archive_take"), parts.NewColumn(8, list...), row)
	focus()
}
