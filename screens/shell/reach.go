package shell

import (
	"context"
	"errors"
	"os/exec"
	"strings"

	"example.org/driploop/screens/parts"
)

// Words are those of the page that is shown, or of the panel over it, as plain text.
func (s *Shell) Words() string {
	if n := len(s.panels); n > 0 {
		return parts.Words(s.panels[n-1])
	}
	return parts.Words(s.page.Object())
}

// copyPage puts the words of the page on the clipboard.
func (s *Shell) copyPage() {
	s.o.App.Clipboard().SetContent(s.Words())
	s.say(s.t("page.fill.copied"), "", nil)
}

// A voice is a program of the system that reads its standard input aloud.
type voice struct {
	read []string // the program and its arguments; LANG stands for the language
	stop []string // ends what is being read, nil where ending the program does
}

// voices are tried in order. Sources: the manual pages of spd-say (speech-dispatcher)
// and say (macOS); System.Speech.Synthesis of .NET Framework.
var voices = []voice{
	{[]string{"spd-say", "--wait", "--pipe-mode", "--language", "LANG"}, []string{"spd-say", "--cancel"}},
	{[]string{"say"}, nil},
	{[]string{"powershell", "-NoProfile", "-Command", "Add-Type -AssemblyName System.Speech; [Console]::InputEncoding=[Text.Encoding]::UTF8; (New-Object System.Speech.Synthesis.SpeechSynthesizer).Speak([Console]::In.ReadToEnd())"}, nil},
}

// speak reads text aloud with the first voice that look finds, until it is done or
// ctx ends. Errors: exec.ErrNotFound where there is none; those of the program.
func speak(ctx context.Context, look func(string) (string, error), lang, text string) error {
	for _, v := range voices {
		path, err := look(v.read[0])
		if err != nil {
			continue
		}
		args := strings.Split(strings.ReplaceAll(strings.Join(v.read[1:], "\x00"), "LANG", lang), "\x00")
		c := exec.CommandContext(ctx, path, args...)
		c.Stdin = strings.NewReader(text)
		err = c.Run()
		if ctx.Err() != nil && v.stop != nil {
			return exec.Command(path, v.stop[1:]...).Run()
		}
		if ctx.Err() != nil {
			return nil
		}
		return err
	}
	return exec.ErrNotFound
}

// readOut reads the page aloud, or ends that.
func (s *Shell) readOut() {
	if s.hush != nil {
		s.hush()
		return
	}
	ctx, hush := context.WithCancel(s.aside.ctx)
	s.hush = hush
	text, lang := s.Words(), s.present.W.Base()
	s.changed()
	s.aside.run(func() {
		err := speak(ctx, exec.LookPath, lang, text)
		s.aside.post(func() {
			s.hush = nil
			hush()
			switch {
			case errors.Is(err, exec.ErrNotFound):
				s.say(s.t("menu.no_voice"), "", nil)
			case err != nil:
				s.fail(err)
			}
			s.changed()
		})
	})
}
