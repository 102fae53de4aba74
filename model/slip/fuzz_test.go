package slip

import (
	"bytes"
	"crypto/ed25519"
	"encoding/json"
	"errors"
	"reflect"
	"slices"
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
		named := slices.ContainsFunc(found, func(x working.Finding) bool { return x.Code != FoundMember && x.Code != FoundField })
		if err != nil || named || p.Later.IsZero() != (len(found) == 0) || !reflect.DeepEqual(p, q) {
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

// FuzzVisitBody and FuzzReplyBody put any text where their body stands.
func FuzzVisitBody(f *testing.F) {
	f.Add(goodVisit)
	f.Add("{" + visitHead + caseOf(`,"signs":[{"sign":"x","seen":"2026-11-02T08:00"}]`) + entryOf(`{"name":"ph","value":"7.0","unit":"ph"}`, `,"of_case":true`) + `,"stock":[{"count":2,"males":1,"length":{"value":"3.5","unit":"cm"}}]}`)
	f.Add("{" + visitHead + `,"private":["notes","prices","places"],"facts":[{"field":"kit.tank.price","kind":"measure","value":"5","unit":"EUR"}],"questions":["?"],"x":{"a":[1e3]}}`)
	f.Fuzz(func(t *testing.T, body string) {
		v, found, err := readVisit(visits.saying(body))
		if refusedWell(t, found, err) {
			return
		}
		again, err := writeVisit(v, nil)
		if err != nil {
			t.Fatalf("read, and not written: %v", err)
		}
		if w, _, err := readVisit(again); err != nil || !reflect.DeepEqual(v, w) {
			t.Fatalf("written and read again: %v\n%+v\n%+v", err, v, w)
		}
	})
}

func FuzzReplyBody(f *testing.F) {
	f.Add(goodReply)
	f.Add("{" + replyHead + `,"rounds":[{"code":"own","title":"x","rule":"FREQ=WEEKLY;BYDAY=MO","start":"2026-12-01T08:00"}],"plan":[{"change":"add","species":"x","count":2,"males":1}],"x":[null]}`)
	f.Fuzz(func(t *testing.T, body string) {
		r, found, err := readReply(replies.saying(body))
		if refusedWell(t, found, err) {
			return
		}
		again, err := writeReply(r, nil)
		if err != nil {
			t.Fatalf("read, and not written: %v", err)
		}
		if w, _, err := readReply(again); err != nil || !reflect.DeepEqual(r, w) {
			t.Fatalf("written and read again: %v\n%+v\n%+v", err, r, w)
		}
	})
}

// FuzzManifest puts any text where the manifest stands, in front of a good body; what
// is read of it lists that body and nothing else.
func FuzzManifest(f *testing.F) {
	body := file(partProfile, goodProfile)
	f.Add(profiles.listing(1, body))
	f.Add(profiles.listing(2, body))
	f.Add(strings.Replace(profiles.listing(1, body), `"parts"`, `"x":[{}],"parts"`, 1))
	f.Fuzz(func(t *testing.T, text string) {
		p, found, err := read(archive{pieces: []piece{file(partManifest, text), body}}.bytes())
		if refusedWell(t, found, err) {
			return
		}
		if !json.Valid([]byte(text)) || !strings.Contains(text, hashOf(body.data)) || p.Tank != "Starter 10" || p.Signature.Signed() {
			t.Fatalf("read as %+v", p)
		}
	})
}

// FuzzSignature puts any text where the signature stands: it is refused, said to be
// of a kind that is not known, or is that of the key that signed.
func FuzzSignature(f *testing.F) {
	key := ed25519.NewKeyFromSeed(make([]byte, ed25519.SeedSize))
	var b bytes.Buffer
	if err := WriteProfile(&b, Profile{Units: "us", Tank: "a"}, key); err != nil {
		f.Fatal(err)
	}
	parts := unzip(f, b.Bytes())
	f.Add(string(parts[partSignature]))
	f.Add("eyJhbGciOiJub25lIn0..")
	f.Fuzz(func(t *testing.T, jws string) {
		p, found, err := read(archive{pieces: []piece{{name: partManifest, data: parts[partManifest]}, {name: partProfile, data: parts[partProfile]}, file(partSignature, jws)}}.bytes())
		if refusedWell(t, found, err) {
			return
		}
		if p.Signature.Signed() && (p.Signature != SignatureOf(key) || jws != string(parts[partSignature])) {
			t.Fatalf("%q is taken for the signature of %s", jws, p.Signature.Thumbprint)
		}
		if !p.Signature.Signed() && len(found) != 1 {
			t.Fatalf("%q is passed over without a word", jws)
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
