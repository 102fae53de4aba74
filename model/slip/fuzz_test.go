package slip

import (
	"encoding/json"
	"errors"
	"reflect"
	"strings"
	"testing"
)

// FuzzReadProfile holds any bytes to the contract: a typed refusal, or a profile
// that a plain ZIP reader sees the same and that is written and read again
// unchanged.
func FuzzReadProfile(f *testing.F) {
	f.Add(with().bytes())
	f.Add(altered(func(p *piece) { p.method = deflated }))
	f.Add(altered(func(p *piece) { p.flags = flagDescriptor }))
	f.Add(with(file("a/b.txt", "x")).bytes())
	f.Add(sayingIn(2, `{"units":"metric","x":[{}],"answers":[{"field":"q","kind":"r","value":"s"}]}`))
	for _, h := range hostiles() {
		if b := h.make(); len(b) < 10_000 {
			f.Add(b)
		}
	}
	f.Fuzz(func(t *testing.T, b []byte) {
		p, found, err := read(b)
		if err != nil {
			var e *Error
			if !errors.As(err, &e) || !strings.HasPrefix(string(e.Code), "refuse.slip.") {
				t.Fatalf("refused with %T %v", err, err)
			}
			return
		}
		for _, x := range found {
			if !strings.HasPrefix(string(x.Code), "find.slip.") {
				t.Fatalf("finding %+v", x)
			}
		}
		parts := unzip(t, b)
		for _, name := range []string{partManifest, partProfile} {
			if !json.Valid(parts[name]) {
				t.Fatalf("%s is no JSON to another reader", name)
			}
		}
		p.Version = Version
		q, found, err := read(write(t, p))
		if err != nil || len(found) > 0 || !reflect.DeepEqual(p, q) {
			t.Fatalf("written and read again: %v %v\n%+v\n%+v", err, found, p, q)
		}
	})
}

// FuzzBody puts any text where the body stands, with a true hash.
func FuzzBody(f *testing.F) {
	f.Add(goodProfile)
	f.Add(`{"units":"us","answers":[{"field":"tank.length","kind":"measure","value":"-0.0","unit":"in"}]}`)
	f.Add(`{"units":"us","a":[[{"b":{}},1.5e3,true,null,"\ud800"]]}`)
	f.Fuzz(func(t *testing.T, body string) {
		p, _, err := read(saying(body))
		var e *Error
		if err != nil && !errors.As(err, &e) {
			t.Fatalf("refused with %T %v", err, err)
		}
		if err == nil && !json.Valid([]byte(body)) {
			t.Fatal("no JSON, and yet it was read")
		}
		if err == nil {
			write(t, p)
		}
	})
}
