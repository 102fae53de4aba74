package slip

import (
	"encoding/json"
	"errors"
	"reflect"
	"strings"
	"testing"

	"example.org/driploop/model/working"
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
	for _, h := range profiles.hostiles() {
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

// FuzzReadVisit and FuzzReadReply hold any bytes to the same contract.
func FuzzReadVisit(f *testing.F) {
	seed(f, visits)
	f.Fuzz(func(t *testing.T, b []byte) {
		v, found, err := readVisit(b)
		if refusedWell(t, found, err) {
			return
		}
		v.Version = Version
		again, err := writeVisit(v, nil)
		if err != nil {
			t.Fatal(err)
		}
		v.Signature = Signature{}
		w, _, err := readVisit(again)
		if err != nil || !reflect.DeepEqual(v, w) {
			t.Fatalf("written and read again: %v\n%+v\n%+v", err, v, w)
		}
	})
}

func FuzzReadReply(f *testing.F) {
	seed(f, replies)
	f.Fuzz(func(t *testing.T, b []byte) {
		r, found, err := readReply(b)
		if refusedWell(t, found, err) {
			return
		}
		r.Version = Version
		again, err := writeReply(r, nil)
		if err != nil {
			t.Fatal(err)
		}
		r.Signature = Signature{}
		w, _, err := readReply(again)
		if err != nil || !reflect.DeepEqual(r, w) {
			t.Fatalf("written and read again: %v\n%+v\n%+v", err, r, w)
		}
	})
}

func seed(f *testing.F, s shape) {
	f.Add(s.with().bytes())
	f.Add(s.altered(func(p *piece) { p.method = deflated }))
	f.Add(s.sayingIn(2, s.good))
	for _, h := range s.hostiles() {
		if b := h.make(); len(b) < 10_000 {
			f.Add(b)
		}
	}
}

// refusedWell reports whether a file was refused, which must be with a code of ours.
func refusedWell(t *testing.T, found []working.Finding, err error) bool {
	for _, x := range found {
		if !strings.HasPrefix(string(x.Code), "find.slip.") {
			t.Fatalf("finding %+v", x)
		}
	}
	var e *Error
	if err != nil && (!errors.As(err, &e) || !strings.HasPrefix(string(e.Code), "refuse.slip.")) {
		t.Fatalf("refused with %T %v", err, err)
	}
	return err != nil
}
