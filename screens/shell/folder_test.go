package shell

import "testing"

// The drive of a folder, by the names that Windows gives to paths: letters of either
// case, a share of the network, which has none.
func TestRootOfAFolder(t *testing.T) {
	drives := []string{`C:\`, `D:\`, `E:\`}
	for _, c := range []struct {
		dir   string
		roots []string
		want  string
	}{
		{`C:\Users\name\Pictures`, drives, `C:\`}, {`d:\`, drives, `D:\`}, {`E:`, drives, `E:\`}, {`\\server\share\fish`, drives, ""}, {`F:\fish`, drives, ""},
		{`CC:\x`, drives, ""}, {"/home/name", []string{"/"}, "/"}, {"/", []string{"/"}, "/"}, {"/media/card/fish", []string{"/", "/media/card"}, "/media/card"},
		{"/media/cards", []string{"/", "/media/card"}, "/"}, {"", drives, ""},
	} {
		if got := rootOf(c.dir, c.roots); got != c.want {
			t.Errorf("%s lies in %q, want %q", c.dir, got, c.want)
		}
	}
}
