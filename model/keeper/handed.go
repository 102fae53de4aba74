package keeper

import (
	"context"
	"crypto/ed25519"
	"crypto/rand"
	"encoding/base64"
	"encoding/json"
	"maps"
	"slices"
	"strings"
	"time"

	"example.org/driploop/model/care"
	"example.org/driploop/model/slip"
	"example.org/driploop/model/store"
	"example.org/driploop/model/working"
)

// settingKey keeps the seed of the key that signs what is handed over from here,
// in base64. It never leaves the data folder.
const settingKey = "signing_key"

// signer gives the key that signs what is handed over from here; it is made when
// it is first needed. A read-only daybook without one hands over unsigned: nil.
func (k *Keeper) signer(ctx context.Context) (ed25519.PrivateKey, error) {
	s, ok, err := k.Setting(ctx, settingKey)
	if err != nil {
		return nil, err
	}
	if seed, err := base64.StdEncoding.DecodeString(s); ok && err == nil && len(seed) == ed25519.SeedSize {
		return ed25519.NewKeyFromSeed(seed), nil
	}
	if k.ReadOnly() != nil {
		return nil, nil
	}
	_, key, err := ed25519.GenerateKey(rand.Reader)
	if err != nil {
		return nil, err
	}
	return key, k.SetSetting(ctx, settingKey, base64.StdEncoding.EncodeToString(key.Seed()))
}

// Handed is who handed over the starter profile that a tank began with.
type Handed struct {
	Shop       slip.Shop
	Notes      map[string]string // by language tag
	Thumbprint string            // of the key that signed it, empty for none
	At         time.Time
	Edition    int          // of the shop's catalogue; 0 is not told
	Plan       []slip.Round // proposed by the shop: see ProposeRounds
	Feeding    FeedingBasis // holds until a person sets another
	Marks      []care.Step  // whose check failed at the shop
	Later      slip.Later   // of a later version: handed on as it came
}

func handedOp(tank string, p slip.Profile, at time.Time) (store.Op, error) {
	notes := p.Notes
	if notes == nil {
		notes = map[string]string{}
	}
	b, err := json.Marshal(notes)
	if err != nil {
		return store.Op{}, err
	}
	row := store.Row{}
	if p.Edition > 0 {
		row["edition"] = int64(p.Edition)
	}
	if len(p.Plan) > 0 {
		plan, err := json.Marshal(p.Plan)
		if err != nil {
			return store.Op{}, err
		}
		row["plan"] = string(plan)
	}
	if f := basisFrom(p.Feeding); f != (FeedingBasis{}) {
		feeding, err := json.Marshal(f)
		if err != nil {
			return store.Op{}, err
		}
		row["feeding"] = string(feeding)
	}
	later, err := laterText(p.Later)
	if err != nil {
		return store.Op{}, err
	}
	if later != nil {
		row["later"] = later
	}
	if len(p.Marks) > 0 {
		row["marks"] = joinSteps(p.Marks)
	}
	maps.Copy(row, store.Row{"tank": tank, "name": p.Shop.Name, "address": p.Shop.Address, "hours": p.Shop.Hours,
		"notes": string(b), "thumbprint": orNil(p.Signature.Thumbprint), "at": stamp(at)})
	return store.Op{Table: "handed", After: row}, nil
}

// laterText is what a later version added as it is kept; nil for nothing.
func laterText(l slip.Later) (any, error) {
	if l.IsZero() {
		return nil, nil
	}
	b, err := json.Marshal(l)
	return string(b), err
}

func joinSteps(steps []care.Step) string {
	var out []string
	for _, s := range steps {
		out = append(out, string(s))
	}
	return strings.Join(out, ",")
}

// basisFrom is what a profile proposes for feeding, as a tank has it.
func basisFrom(f slip.Feeding) FeedingBasis {
	return FeedingBasis{Share: f.Share, Protein: f.Protein, Fasting: WeekdaysOf(f.Fasting)}
}

// HandedBy tells who handed over the profile that a tank began with; it reports
// false for a tank that began otherwise.
func (k *Keeper) HandedBy(ctx context.Context, tank string) (Handed, bool, error) {
	rows, err := k.st.Load(ctx, "handed", map[string]any{"tank": tank}, "")
	if err != nil || len(rows) == 0 {
		return Handed{}, false, err
	}
	h, err := handedOf(rows[0])
	return h, err == nil, err
}

func handedOf(r store.Row) (Handed, error) {
	h := Handed{Shop: slip.Shop{Name: text(r["name"]), Address: text(r["address"]), Hours: text(r["hours"])}, Thumbprint: text(r["thumbprint"])}
	var err error
	if h.At, err = time.Parse(time.RFC3339Nano, text(r["at"])); err != nil {
		return Handed{}, err
	}
	n, _ := r["edition"].(int64)
	h.Edition = int(n)
	for _, s := range strings.Split(text(r["marks"]), ",") {
		if step := care.Step(s); slip.Marked(step) {
			h.Marks = append(h.Marks, step)
		}
	}
	for name, to := range map[string]any{"notes": &h.Notes, "plan": &h.Plan, "feeding": &h.Feeding, "later": &h.Later} {
		if s := text(r[name]); s != "" {
			if err := json.Unmarshal([]byte(s), to); err != nil {
				return Handed{}, err
			}
		}
	}
	return h, nil
}

// Who signed a profile, as far as this daybook knows: a key is trusted to be the
// same as before, never to be anybody's. Whose it is only people can tell.
const (
	foundSame     working.Key = "find.slip.signed_same"     // the key of a profile taken before
	foundFirst    working.Key = "find.slip.signed_first"    // a key not met before
	foundOtherKey working.Key = "find.slip.signed_other"    // a shop of that name had another key
	foundUnsigned working.Key = "find.slip.unsigned"        // nobody did
	foundNoLonger working.Key = "find.slip.unsigned_before" // nobody did, and a shop of that name used to
)

// standing says who signed a slip of a shop of that name beside the profiles and
// replies that were taken before.
func (k *Keeper) standing(ctx context.Context, shop string, s slip.Signature) (working.Finding, error) {
	var met []store.Row
	for _, table := range []string{"handed", "reply"} {
		rows, err := k.st.Load(ctx, table, nil, "at")
		if err != nil {
			return working.Finding{}, err
		}
		met = append(met, rows...)
	}
	slices.SortStableFunc(met, func(a, b store.Row) int { return unstamp(a["at"]).Compare(unstamp(b["at"])) })
	name := strings.ToLower(shop)
	var named bool
	for _, r := range met {
		switch was := text(r["thumbprint"]); {
		case was == "":
		case was == s.Thumbprint:
			return working.Find(working.Steady, foundSame).Say("Name", text(r["name"])).Say("Day", unstamp(r["at"]).Format(time.DateOnly)), nil
		case name != "" && strings.ToLower(text(r["name"])) == name:
			named = true
		}
	}
	switch signed := s.Signed(); {
	case signed && named:
		return working.Find(working.Wait, foundOtherKey).Say("Name", shop), nil
	case signed:
		return working.Find(working.Steady, foundFirst), nil
	case named:
		return working.Find(working.Wait, foundNoLonger).Say("Name", shop), nil
	}
	return working.Find(working.Steady, foundUnsigned), nil
}
