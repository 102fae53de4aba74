package shell

import (
	"context"
	"io"

	"example.org/driploop/screens/paper"
)

// printCase writes the paper of a case beside the person's documents and says
// where. Its pictures are made ready for print one by one, which takes a while:
// it is shown how far that is, and can be ended.
func (s *Shell) printCase(tank, id string) {
	var path string
	speaker, size := s.present, paper.SizeFor(s.prefs.Region)
	s.making("page.sick.printing", func(ctx context.Context, progress func(done, total int)) (err error) {
		path, err = s.keepFile(ctx, "driploop-"+paper.Case.FileName(), func(ctx context.Context, out io.Writer) error {
			return paper.WriteCase(ctx, s.o.Keeper, tank, id, speaker, size, out, progress)
		})
		return err
	}, func(err error) { s.saved(path, err) })
}
