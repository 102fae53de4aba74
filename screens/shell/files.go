package shell

import (
	"bytes"
	"context"
	"fmt"
	"io"
	"net/url"
	"os"
	"path/filepath"
	"strings"

	"example.org/driploop/i18n"
	"example.org/driploop/model/durable"
	"example.org/driploop/screens/paper"
)

// print writes a paper of a tank beside the person's documents and says where.
func (s *Shell) print(kind, tank string) {
	s.put("driploop-"+paper.Kind(kind).FileName(), func(ctx context.Context, w io.Writer) error {
		return paper.Write(ctx, paper.Kind(kind), s.o.Keeper, tank, s.present, paper.SizeFor(s.prefs.Region), w)
	})
}

// table writes the daybook of a tank in the same way.
func (s *Shell) table(tank string) {
	s.put("driploop-daybook.csv", func(ctx context.Context, w io.Writer) error { return s.o.Keeper.WriteCSV(ctx, tank, w) })
}

// put writes a file beside the person's documents and says where.
func (s *Shell) put(name string, write func(context.Context, io.Writer) error) {
	var path string
	s.work(func(ctx context.Context) (err error) {
		path, err = s.keepFile(ctx, name, write)
		return err
	}, func(err error) { s.saved(path, err) })
}

// keepFile writes a file beside the person's documents, never over another that has its
// name, and gives its path.
func (s *Shell) keepFile(ctx context.Context, name string, write func(context.Context, io.Writer) error) (string, error) {
	var b bytes.Buffer
	if err := write(ctx, &b); err != nil {
		return "", err
	}
	path := handed(filepath.Join(s.folder(), name), b.Bytes())
	return path, durable.WriteFile(path, b.Bytes(), 0o644)
}

// unused is a path that no file has: the one given, else with the next number behind its
// name. What is handed over to people is not made again as it was, so it is never written
// over.
func unused(path string) string { return free(path, func(string) bool { return false }) }

// handed is such a path for a file that may have been handed over before: one that holds
// the same is that file.
func handed(path string, file []byte) string {
	return free(path, func(at string) bool {
		there, err := os.ReadFile(at)
		return err == nil && bytes.Equal(there, file)
	})
}

// free is the first of the paths that no file has, or whose file may be written again.
func free(path string, again func(at string) bool) string {
	ending := filepath.Ext(path)
	name := strings.TrimSuffix(path, ending)
	for n := 2; ; n++ {
		if _, err := os.Lstat(path); err != nil || again(path) {
			return path
		}
		path = fmt.Sprintf("%s-%d%s", name, n, ending)
	}
}

// folder is where files are written that nobody chose a place for.
func (s *Shell) folder() string {
	if s.o.PaperDir != "" {
		return s.o.PaperDir
	}
	return documents()
}

// paperEnding marks a paper.
const paperEnding = ".pdf"

// saved says where a file is, or why there is none. A paper can be opened from there,
// in the program that the system has for it, which is also the one that prints it.
func (s *Shell) saved(path string, err error) {
	if err != nil {
		s.fail(err)
		return
	}
	label := ""
	if filepath.Ext(path) == paperEnding {
		label = s.t("label.open")
	}
	s.say(s.present.W.T("page.fill.saved", i18n.Args{"Path": path}), label, func() { s.view(path) })
}

// view opens a file in the program that the system has for it.
func (s *Shell) view(path string) {
	var err error
	s.aside.do(func(context.Context) { err = s.o.App.OpenURL(fileURL(path)) }, func() {
		if err != nil {
			s.say(s.present.W.T("page.not_opened", i18n.Args{"Path": path}), "", nil)
		}
	})
}

// fileURL is the address of a file by an absolute path. Source: RFC 8089, 2 and
// appendix E.2 for a drive's letter.
func fileURL(path string) *url.URL {
	path = filepath.ToSlash(path)
	if !strings.HasPrefix(path, "/") {
		path = "/" + path // C:/folder
	}
	return &url.URL{Scheme: "file", Path: path}
}

// documents is the person's folder for documents, or their home.
func documents() string {
	home, err := os.UserHomeDir()
	if err != nil {
		return os.TempDir()
	}
	if d := filepath.Join(home, "Documents"); isDir(d) {
		return d
	}
	return home
}

func isDir(path string) bool {
	info, err := os.Stat(path)
	return err == nil && info.IsDir()
}
