package shell

import (
	"context"
	"errors"
	"net/url"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"strings"
	"time"

	"example.org/driploop/model/keeper"
	"example.org/driploop/model/photo"
)

// PastePictures takes in what was copied, for the tank that is open.
func (s *Shell) PastePictures() { s.paste(s.route.Tank, keeper.AddOptions{}, nil) }

// paste takes in what was copied: files by their names, or a picture where the
// system gives one.
func (s *Shell) paste(tank string, o keeper.AddOptions, then func(keeper.Added)) {
	text := ""
	if c := s.o.App.Clipboard(); c != nil {
		text = c.Content()
	}
	if paths := CopiedFiles(text); len(paths) > 0 {
		s.pictures(tank, o, paths, then)
		return
	}
	var data []byte
	var err error
	s.aside.do(func(ctx context.Context) { data, err = copiedPicture(ctx) }, func() {
		switch {
		case errors.Is(err, exec.ErrNotFound):
			s.say(s.t("page.photo.paste_no_way"), "", nil)
		case err != nil || len(data) == 0:
			s.say(s.t("page.photo.paste_nothing"), "", nil)
		default:
			name := s.t("page.photo.pasted") + s.o.Now().Format(" 2006-01-02 150405") + photo.PNG.Extension()
			s.takeIn(tank, o, []photo.Source{{Name: name, Bytes: data}}, then)
		}
	})
}

// CopiedFiles reads names of files and folders from copied text, one a line, as
// file managers give them: paths, or file addresses. It gives none unless every
// line names something that is there.
func CopiedFiles(text string) []string {
	const most = 1 << 20 // judgement: thousands of names
	if len(text) > most {
		return nil
	}
	var out []string
	for _, line := range strings.Split(text, "\n") {
		line = strings.Trim(strings.TrimSpace(line), `"`)
		switch line {
		case "", "copy", "cut", "x-special/nautilus-clipboard": // lead lines of file managers
			continue
		}
		path := line
		if u, err := url.Parse(line); err == nil && u.Scheme == "file" {
			path = u.Path
			if runtime.GOOS == "windows" {
				path = strings.TrimPrefix(path, "/")
			}
		}
		if !filepath.IsAbs(path) {
			return nil
		}
		if _, err := os.Stat(path); err != nil {
			return nil
		}
		out = append(out, path)
	}
	return out
}

// The least that is asked of the system's own tools. Judgement.
const (
	pasteWait = 5 * time.Second
	pasteMost = 64 << 20
)

// copiedPicture asks the system for the pixels that were copied. The toolkit
// gives text alone; on Linux two small programs that many have give the rest.
// Errors: exec.ErrNotFound where there is no such way.
func copiedPicture(ctx context.Context) ([]byte, error) {
	ctx, stop := context.WithTimeout(ctx, pasteWait)
	defer stop()
	err := error(exec.ErrNotFound)
	for _, way := range [][]string{{"wl-paste", "--no-newline", "--type", "image/png"}, {"xclip", "-selection", "clipboard", "-t", "image/png", "-o"}} {
		path, miss := exec.LookPath(way[0])
		if miss != nil {
			continue
		}
		var data []byte
		if data, err = exec.CommandContext(ctx, path, way[1:]...).Output(); err == nil && len(data) > 0 && len(data) <= pasteMost {
			return data, nil
		}
	}
	return nil, err
}
