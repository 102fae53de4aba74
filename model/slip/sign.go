package slip

import (
	"crypto/ed25519"
	"crypto/sha256"
	"encoding/base64"
	"encoding/json"
	"strings"

	"example.org/driploop/model/working"
)

// partSignature is the part that signs the manifest, and by its hashes all others.
// It holds a JSON Web Signature in the compact form with its content left out,
// which is manifest.json as it stands. Source: RFC 7515, appendix F; RFC 8037.
const partSignature = "signature.jws"

// maxSignature is far above what such a signature takes, bytes. // judgement
const maxSignature = 2000

// Signature says whose key signed a slip. The zero value means that nobody did.
type Signature struct {
	// Thumbprint names the key for good: RFC 7638 with SHA-256, in base64url.
	Thumbprint string
}

// Signed reports whether there is a signature; one that does not hold is refused
// when the slip is read.
func (s Signature) Signed() bool { return s.Thumbprint != "" }

// FoundSignature: signed in a way that this version does not know.
const FoundSignature working.Key = "find.slip.signature"

// jwk is an Ed25519 key as RFC 8037 writes it. The order of members is that of
// RFC 7638, so that its JSON is what the thumbprint is made of.
type jwk struct {
	Curve string `json:"crv"`
	Type  string `json:"kty"`
	X     string `json:"x"`
}

type jwsHeader struct {
	Algorithm string          `json:"alg"`
	Critical  json.RawMessage `json:"crit,omitempty"`
	Key       *jwk            `json:"jwk,omitempty"`
}

const (
	algorithm = "EdDSA"
	curve     = "Ed25519"
	keyType   = "OKP"
)

var base64url = base64.RawURLEncoding.Strict()

func jwkOf(k ed25519.PublicKey) jwk {
	return jwk{Curve: curve, Type: keyType, X: base64url.EncodeToString(k)}
}

// Thumbprint names a key: RFC 7638 with SHA-256, in base64url.
func Thumbprint(k ed25519.PublicKey) string {
	b, err := json.Marshal(jwkOf(k))
	if err != nil { // three strings have no such fault
		return ""
	}
	sum := sha256.Sum256(b)
	return base64url.EncodeToString(sum[:])
}

// SignatureOf is what a slip signed with the key is read to bear.
func SignatureOf(k ed25519.PrivateKey) Signature {
	return Signature{Thumbprint: Thumbprint(k.Public().(ed25519.PublicKey))}
}

// sign writes the signature of a manifest.
func sign(manifest []byte, key ed25519.PrivateKey) ([]byte, error) {
	public := jwkOf(key.Public().(ed25519.PublicKey))
	h, err := json.Marshal(jwsHeader{Algorithm: algorithm, Key: &public})
	if err != nil {
		return nil, err
	}
	head := base64url.EncodeToString(h)
	return []byte(head + ".." + base64url.EncodeToString(ed25519.Sign(key, signingInput(head, manifest)))), nil
}

// signingInput is what is signed. Source: RFC 7515, section 5.1.
func signingInput(head string, content []byte) []byte {
	return []byte(head + "." + base64url.EncodeToString(content))
}

// verify checks a signature of a manifest. It reports known false for one that is
// well made in a way that this version does not know; who made it is not told
// then. Errors: *Error for one that is not well made or does not hold.
func verify(manifest, jws []byte) (s Signature, known bool, err error) {
	wrong := refuse(CodeSignature, partSignature)
	parts := strings.Split(string(jws), ".")
	if len(parts) != 3 || parts[1] != "" {
		return s, false, wrong
	}
	raw, err := base64url.DecodeString(parts[0])
	if err != nil {
		return s, false, wrong
	}
	sig, err := base64url.DecodeString(parts[2])
	if err != nil {
		return s, false, wrong
	}
	t, err := parse(partSignature, raw, slipLimits)
	if err != nil || t.kind != isObject {
		return s, false, wrong
	}
	var h jwsHeader
	if json.Unmarshal(raw, &h) != nil || h.Algorithm == "" {
		return s, false, wrong
	}
	// What is critical and not known must not be passed over: RFC 7515, 4.1.11.
	if h.Algorithm != algorithm || h.Critical != nil || h.Key == nil || h.Key.Curve != curve || h.Key.Type != keyType {
		return s, false, nil
	}
	x, err := base64url.DecodeString(h.Key.X)
	if err != nil || len(x) != ed25519.PublicKeySize || len(sig) != ed25519.SignatureSize || !ed25519.Verify(x, signingInput(parts[0], manifest), sig) {
		return s, false, wrong
	}
	return Signature{Thumbprint: Thumbprint(x)}, true, nil
}
