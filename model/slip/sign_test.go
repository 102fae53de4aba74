package slip

import (
	"archive/zip"
	"bytes"
	"crypto/ed25519"
	"encoding/base64"
	"strings"
	"testing"

	"example.org/driploop/model/quantity"
)

// The key of RFC 8037, appendix A.1.
const (
	rfcSeed       = "nWGxne_9WmC6hEr0kuwsxERJxWl7MmkZcDusAxyuf2A"
	rfcX          = "11qYAYKxCrfVS_7TyWQHOg7hcvPapiMlrwIaaPcHURo"
	rfcThumbprint = "kPrK_qmxVWaYVA9wwBF6Iuo3vVzz7TxHCTwXBygrS4k" // A.3
	rfcHeader     = "eyJhbGciOiJFZERTQSJ9"                        // A.4
	rfcContent    = "Example of Ed25519 signing"
	rfcSignature  = "hgyY0il_MGCjP0JzlnLWG1PPOt7-09PGcvMg3AIbQR6dWbhijcNR4ki4iylGjg5BhVsPt9g7sVvpAr_MuM0KAg"
)

func rfcKey(t *testing.T) ed25519.PrivateKey {
	t.Helper()
	seed, err := base64url.DecodeString(rfcSeed)
	if err != nil {
		t.Fatal(err)
	}
	return ed25519.NewKeyFromSeed(seed)
}

// Source: RFC 8037, appendix A.
func TestSignatureOfTheStandard(t *testing.T) {
	key := rfcKey(t)
	if got := jwkOf(key.Public().(ed25519.PublicKey)).X; got != rfcX {
		t.Errorf("x is %s", got)
	}
	if got := Thumbprint(key.Public().(ed25519.PublicKey)); got != rfcThumbprint {
		t.Errorf("thumbprint %s", got)
	}
	if got := base64url.EncodeToString(ed25519.Sign(key, signingInput(rfcHeader, []byte(rfcContent)))); got != rfcSignature {
		t.Errorf("signature %s", got)
	}
}

func signedProfile(t *testing.T, key ed25519.PrivateKey) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := WriteProfile(&b, Profile{Version: Version, Units: quantity.Metric, Tank: "Shelf", Shop: Shop{Name: "Corner shop"}}, key); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// A signed profile is the same bytes each time and tells its key; one that was
// changed, or whose signature was, is refused; one without is not signed.
func TestSignedProfile(t *testing.T) {
	key := rfcKey(t)
	data := signedProfile(t, key)
	if !bytes.Equal(data, signedProfile(t, key)) {
		t.Error("two different files of the same profile")
	}
	p, found, err := ReadProfile(bytes.NewReader(data), int64(len(data)))
	if err != nil || len(found) != 0 || p.Signature.Thumbprint != rfcThumbprint {
		t.Fatalf("%+v, %v, %v", p.Signature, found, err)
	}
	plain := signedProfile(t, nil)
	if p, found, err = ReadProfile(bytes.NewReader(plain), int64(len(plain))); err != nil || len(found) != 0 || p.Signature.Signed() {
		t.Errorf("not signed: %+v, %v, %v", p.Signature, found, err)
	}
	manifest := partOf(t, data, partManifest)
	jws := string(partOf(t, data, partSignature))
	head, sig, _ := strings.Cut(jws, "..")
	encode := func(s string) string { return base64url.EncodeToString([]byte(s)) }
	x := jwkOf(key.Public().(ed25519.PublicKey)).X
	padded := base64.URLEncoding.EncodeToString([]byte("{}"))
	for what, c := range map[string]struct {
		jws  string
		want string // the code of the refusal, or of the finding
	}{
		"another manifest":      {"", string(CodeSignature)},
		"another signature":     {head + ".." + encode(strings.Repeat("x", 64)), string(CodeSignature)},
		"content inside":        {head + "." + encode("{}") + "." + sig, string(CodeSignature)},
		"two parts":             {head + "." + sig, string(CodeSignature)},
		"padding":               {padded + ".." + sig, string(CodeSignature)},
		"no JSON":               {encode("no") + ".." + sig, string(CodeSignature)},
		"a member twice":        {encode(`{"alg":"EdDSA","alg":"none"}`) + ".." + sig, string(CodeSignature)},
		"short key":             {encode(`{"alg":"EdDSA","jwk":{"crv":"Ed25519","kty":"OKP","x":"AAAA"}}`) + ".." + sig, string(CodeSignature)},
		"no algorithm":          {encode(`{"alg":"none","jwk":{"crv":"Ed25519","kty":"OKP","x":"`+x+`"}}`) + "..", string(FoundSignature)},
		"a later algorithm":     {encode(`{"alg":"ML-DSA-65"}`) + ".." + sig, string(FoundSignature)},
		"something critical":    {encode(`{"alg":"EdDSA","crit":["b64"],"b64":false,"jwk":{"crv":"Ed25519","kty":"OKP","x":"`+x+`"}}`) + ".." + sig, string(FoundSignature)},
		"a key named elsewhere": {encode(`{"alg":"EdDSA","kid":"1"}`) + ".." + sig, string(FoundSignature)},
	} {
		m, s := manifest, c.jws
		if s == "" {
			m, s = append([]byte(" "), manifest...), jws
		}
		file := zipped(t, map[string][]byte{partManifest: m, partProfile: partOf(t, data, partProfile), partSignature: []byte(s)})
		p, found, err := ReadProfile(bytes.NewReader(file), int64(len(file)))
		got := ""
		if err != nil {
			got = string(codeOf(t, err))
		} else if len(found) == 1 {
			got = string(found[0].Code)
		}
		if got != c.want || p.Signature.Signed() {
			t.Errorf("%s: %q, %v, want %q", what, got, err, c.want)
		}
	}
}

func partOf(t *testing.T, data []byte, name string) []byte {
	t.Helper()
	z, err := zip.NewReader(bytes.NewReader(data), int64(len(data)))
	if err != nil {
		t.Fatal(err)
	}
	f, err := z.Open(name)
	if err != nil {
		t.Fatal(err)
	}
	var b bytes.Buffer
	if _, err := b.ReadFrom(f); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

func zipped(t *testing.T, parts map[string][]byte) []byte {
	t.Helper()
	var b bytes.Buffer
	z := zip.NewWriter(&b)
	for _, name := range sorted(parts) {
		f, err := z.CreateHeader(&zip.FileHeader{Name: name, Method: zip.Store})
		if err != nil {
			t.Fatal(err)
		}
		if _, err := f.Write(parts[name]); err != nil {
			t.Fatal(err)
		}
	}
	if err := z.Close(); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}
