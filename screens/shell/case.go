package shell

import (
	"context"
	"errors"
	"io"

	"example.org/driploop/i18n"
	"example.org/driploop/screens/paper"
	"example.org/driploop/screens/parts"
)

// printCase writes the paper of a case beside the person's documents and says
// where. Its pictures are made ready for print one by one, which takes a while:
// it is shown how far that is, and can be ended.
func (s *Shell) printCase(tank, id string) {
	w := s.present.W
	bar := parts.NewBar(parts.BarSpec{Name: s.t("page.sick.print_pictures")})
	ctx, stop := context.WithCancel(s.aside.ctx)
	cancel := parts.NewButton(parts.ButtonSpec{ID: "cancel", Label: s.t("label.cancel")}, stop)
	shut := s.dialogBack(s.t("page.sick.printing"), bar, stop, parts.NewFlow(cancel))
	if c := s.canvas(); c != nil {
		c.Focus(cancel)
	}
	var path string
	var err error
	speaker, size := s.present, paper.SizeFor(s.prefs.Region)
	s.aside.do(func(context.Context) {
		defer stop()
		path, err = s.keepFile(ctx, "driploop-"+paper.Case.FileName(), func(ctx context.Context, out io.Writer) error {
			return paper.WriteCase(ctx, s.o.Keeper, tank, id, speaker, size, out, func(done, total int) {
				s.aside.post(func() {
					bar.Set(parts.BarSpec{Name: s.t("page.sick.print_pictures"), Share: float64(done) / float64(max(total, 1)),
						Text: w.T("page.photo.progress", i18n.Args{"Done": done, "Total": total})})
				})
			})
		})
	}, func() {
		shut()
		if errors.Is(err, context.Canceled) {
			return
		}
		s.saved(path, err)
	})
}
