package durable

import (
	"context"
	"os"
	"time"
)

// mostRung bounds what Heard reads of a bell, bytes: paths of some files. // judgement
const mostRung = 64 << 10

// Ring asks the program that holds the folder of path to come forward: it leaves
// the file path with text in it and waits until that program has taken it away,
// looking whenever look yields. It reports false when nobody did before ctx ended, or the file cannot be written;
// the file is gone then too. It says nothing of who holds the folder: that is the
// lock's to say.
func Ring(ctx context.Context, path, text string, look <-chan time.Time) (heard bool) {
	if WriteFile(path, []byte(text), 0o600) != nil {
		return false
	}
	for {
		select {
		case <-ctx.Done():
			// Whoever removes it has it: taken in the last moment, it was heard.
			return os.Remove(path) != nil && gone(path)
		case <-look:
			if gone(path) {
				return true
			}
		}
	}
}

func gone(path string) bool {
	_, err := os.Lstat(path)
	return os.IsNotExist(err)
}

// Heard takes a file of Ring away and gives what it said. It reports false when
// there is none, when it is no plain file or too long, or when it cannot be taken
// away: nobody was then told that it was heard.
func Heard(path string) (text string, rung bool) {
	info, err := os.Lstat(path)
	if err != nil || !info.Mode().IsRegular() || info.Size() > mostRung {
		return "", false
	}
	data, err := os.ReadFile(path)
	if err != nil || os.Remove(path) != nil {
		return "", false
	}
	return string(data), true
}
