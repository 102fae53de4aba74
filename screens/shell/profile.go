package shell

import (
	"context"
	"io"
	"path/filepath"
	"strings"
	"unicode"

	"fyne.io/fyne/v2"

	"example.org/driploop/i18n"
	"example.org/driploop/model/keeper"
	"example.org/driploop/model/slip"
	"example.org/driploop/model/working"
	"example.org/driploop/screens/nav"
	"example.org/driploop/screens/paper"
	"example.org/driploop/screens/parts"
)

// profileEnding marks a starter profile.
const profileEnding = slip.EndingProfile

// openProfile asks for a starter profile: its file, or pictures of its sheet.
func (s *Shell) openProfile() {
	kinds := s.slipKinds("page.choose.profile_kinds", profileEnding)
	s.chooseFiles("page.choose.profile", append(kinds, fileKind{"file", s.t("page.choose.profile_file"), endings{profileEnding: true}}), true, s.takeSlips)
}

// Take shows what a starter profile holds, and takes it when the person says so. A
// picture is that of a printed one.
func (s *Shell) Take(path string) {
	if isPicture(path) {
		s.takeSheet(&slip.Sheet{}, []string{path})
		return
	}
	s.offer(s.o.Keeper.OpenProfile(context.Background(), path))
}

// offer shows a profile that was read, or why it was not.
func (s *Shell) offer(p slip.Profile, findings []working.Finding, err error) {
	if err != nil {
		words, ok := s.present.W.Problem(err)
		if !ok {
			words = s.t("page.start.profile_refused")
		}
		s.say(words, "", nil)
		return
	}
	var shut func()
	list := []fyne.CanvasObject{}
	var mild []working.Finding
	for _, f := range findings { // what failed a check stands first
		if f.State == working.Act {
			list = append(list, parts.NewVerdict(parts.VerdictSpec{State: parts.Act, Title: s.present.Say(f)}))
		} else {
			mild = append(mild, f)
		}
	}
	findings = mild
	for _, part := range s.present.SaidParts(p, findings) {
		var lines []fyne.CanvasObject
		for _, line := range part.Lines {
			lines = append(lines, parts.TextOf(line, parts.Body))
		}
		switch {
		case part.Title == "":
			list = append(list, lines...)
		case len(lines) == 1:
			list = append(list, parts.TextOf(part.Title, parts.Section), lines[0])
		default:
			list = append(list, parts.TextOf(part.Title, parts.Section), parts.NewRowOf(2, lines...))
		}
	}
	take := func() {
		var id string
		s.work(func(ctx context.Context) (err error) { id, err = s.o.Keeper.TakeProfile(ctx, p); return err }, func(err error) {
			shut()
			if err != nil {
				s.fail(err)
				return
			}
			s.Go(nav.Route{Place: nav.FirstFill, Tank: id})
			s.say(s.present.W.T("page.start.profile_taken", i18n.Args{"Name": p.Tank}), s.t("label.undo"), s.undoList)
		})
	}
	yes := parts.NewButton(parts.ButtonSpec{ID: "take", Label: s.t("page.start.take"), Kind: parts.Primary}, take)
	shut = s.dialog(s.t("page.start.profile"), parts.NewColumn(6, list...),
		parts.NewFlow(yes, parts.NewButton(parts.ButtonSpec{ID: "cancel", Label: s.t("label.cancel")}, func() { shut() })))
	if c := s.canvas(); c != nil {
		c.Focus(yes)
	}
}

// makeProfile begins a starter profile as a copy of the tank, and shows it.
func (s *Shell) makeProfile() {
	tank := s.route.Tank
	var id string
	s.work(func(ctx context.Context) error {
		b, err := s.o.Keeper.Brief(ctx, tank)
		if err != nil {
			return err
		}
		id, err = s.o.Keeper.DraftFrom(ctx, tank, b.Tank.Name)
		return err
	}, func(err error) {
		if err != nil {
			s.fail(err)
			return
		}
		s.Go(nav.Route{Place: nav.Counter, Tank: tank, Profile: id})
		s.changed()
	})
}

// handFile hands a starter profile out as a file beside the person's documents.
func (s *Shell) handFile(profile string, then func()) {
	var path string
	s.work(func(ctx context.Context) error {
		r, err := s.o.Keeper.PrepareHandOut(ctx, profile)
		if err != nil {
			return err
		}
		path = handed(filepath.Join(s.folder(), fileName(r.Profile.Tank)+profileEnding), r.File)
		_, err = s.o.Keeper.HandOutFile(ctx, profile, path, "")
		return err
	}, func(err error) {
		then()
		s.saved(path, err)
	})
}

// handSheets hands a starter profile out as printed sheets, one for each label.
func (s *Shell) handSheets(profile string, labels []string, then func()) {
	var path string
	s.work(func(ctx context.Context) error {
		r, err := s.o.Keeper.PrepareHandOut(ctx, profile)
		if err != nil {
			return err
		}
		path, err = s.keepFile(ctx, fileName(r.Profile.Tank)+".pdf", func(ctx context.Context, w io.Writer) error {
			return paper.WriteProfile(ctx, s.o.Keeper, profile, r, labels, s.present, paper.SizeFor(s.prefs.Region), w)
		})
		if err != nil {
			return err
		}
		return s.o.Keeper.NoteHandOuts(ctx, profile, r, keeper.BySheet, labels...)
	}, func(err error) {
		then()
		s.saved(path, err)
	})
}

// fileName makes the name of a profile fit for a file of any system: letters and
// digits, with hyphens between them.
func fileName(name string) string {
	words := strings.FieldsFunc(name, func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsDigit(r) })
	if len(words) == 0 {
		return "driploop"
	}
	return strings.ToLower(strings.Join(words, "-"))
}
