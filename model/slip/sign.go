package slip

import (
	"crypto/ed25519"
	"crypto/sha256"
	"encoding/base64"
	"encoding/json"
	"math/big"
	"slices"
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
	Algorithm string `json:"alg"`
	Key       *jwk   `json:"jwk,omitempty"`
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
	// Names are told apart by case, as the standard has it: RFC 7515, section 4.
	f := fetch{part: partSignature}
	h, _ := f.object(t, "", "alg", "crit", "jwk") // it is an object
	if h["alg"].kind != isString || h["alg"].text == "" {
		return s, false, wrong
	}
	_, critical := h["crit"] // what is critical and not known must not be passed over: RFC 7515, 4.1.11
	key, err := f.object(h["jwk"], "jwk", "crv", "kty", "x")
	if h["alg"].text != algorithm || critical || err != nil || key["crv"].text != curve || key["kty"].text != keyType {
		return s, false, nil
	}
	x, err := base64url.DecodeString(key["x"].text)
	if err != nil || len(x) != ed25519.PublicKeySize || len(sig) != ed25519.SignatureSize || weak(x) || !ed25519.Verify(x, signingInput(parts[0], manifest), sig) {
		return s, false, wrong
	}
	return Signature{Thumbprint: Thumbprint(x)}, true, nil
}

// The prime of the curve, and the y of a point of order 8. Source: RFC 8032, section
// 5.1, for the curve; the point's order is worked out in the test.
var (
	curvePrime, _ = new(big.Int).SetString("7fffffffffffffffffffffffffffffffffffffffffffffffffffffffffffffed", 16)
	yOfOrder8, _  = new(big.Int).SetString("5fc536d880238b13933c6d305acdfd5f098eff289f4c345b027b2c28f95e826", 16)
)

// weak reports whether a key is a point of small order: anybody can make signatures
// that hold for such a one, so that it names nobody.
func weak(key []byte) bool {
	b := slices.Clone(key)
	slices.Reverse(b)
	b[0] &= 0x7f // the sign of x
	y := new(big.Int).SetBytes(b)
	y.Mod(y, curvePrime)
	minus := new(big.Int).Mod(new(big.Int).Neg(y), curvePrime)
	one := big.NewInt(1)
	return y.Sign() == 0 || y.Cmp(one) == 0 || minus.Cmp(one) == 0 || y.Cmp(yOfOrder8) == 0 || minus.Cmp(yOfOrder8) == 0
}
