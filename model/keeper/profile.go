package keeper

import (
	"bytes"
	"context"
	"encoding/json"
	"io"
	"maps"
	"os"
	"runtime/debug"
	"slices"

	"example.org/driploop/model/care"
	"example.org/driploop/model/durable"
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/rounds"
	"example.org/driploop/model/slip"
	"example.org/driploop/model/store"
	"example.org/driploop/model/working"
)

// settingShop keeps who hands profiles over, as JSON of shopCard.
const settingShop = "shop"

type shopCard struct {
	Shop  slip.Shop         `json:"shop"`
	Notes map[string]string `json:"notes,omitempty"`
}

// Shop tells who hands profiles over from here and the notes that go with them,
// by language; both are empty until SetShop.
func (k *Keeper) Shop(ctx context.Context) (slip.Shop, map[string]string, error) {
	var c shopCard
	s, ok, err := k.Setting(ctx, settingShop)
	if err == nil && ok {
		err = json.Unmarshal([]byte(s), &c)
	}
	return c.Shop, c.Notes, err
}

// SetShop keeps who hands profiles over from here, and the notes that go with
// every profile. It is a setting: at once and without undo. Errors: *slip.Error for
// a text that a profile cannot carry.
func (k *Keeper) SetShop(ctx context.Context, s slip.Shop, notes map[string]string) error {
	c := shopCard{Shop: slip.Shop{Name: slip.OneLine(s.Name), Address: slip.Tidy(s.Address), Hours: slip.Tidy(s.Hours)}, Notes: tidyNotes(notes)}
	// Units are the one thing that a profile cannot be without.
	if err := (slip.Profile{Units: quantity.Metric, Shop: c.Shop, Notes: c.Notes}).Check(); err != nil {
		return err
	}
	b, err := json.Marshal(c)
	if err != nil {
		return err
	}
	return k.SetSetting(ctx, settingShop, string(b))
}

// ProfileOf makes a starter profile from a tank, or from one in work: every answer
// that a shop may propose, given or accepted, what recurs, how it is fed, with the
// shop and its notes, and the marks of what its own check found. Nothing else of
// the tank is in it. Errors: *slip.Error when an answer is one that its field does
// not take any more.
func (k *Keeper) ProfileOf(ctx context.Context, tank string) (slip.Profile, error) {
	p, err := k.said(ctx, tank)
	if err != nil {
		return slip.Profile{}, err
	}
	var all map[string]string
	if p.Shop, all, err = k.Shop(ctx); err != nil {
		return slip.Profile{}, err
	}
	d, _, err := k.draft(ctx, tank)
	if err != nil {
		return slip.Profile{}, err
	}
	p.Notes = maps.Clone(d.notes)
	for lang, n := range all {
		if own := p.Notes[lang]; own != "" {
			n = own + "\n\n" + n
		}
		if p.Notes == nil {
			p.Notes = map[string]string{}
		}
		p.Notes[lang] = n
	}
	p.Marks = k.failures(p)
	if err := p.Check(); err != nil {
		return slip.Profile{}, err
	}
	return p, nil
}

// SaveProfile writes the starter profile that a tank makes to path, whole or not at
// all, signed with this daybook's key. It is in no catalogue and counts no edition: for
// those see HandOutFile. Errors: as ProfileOf's; *durable.WriteError.
func (k *Keeper) SaveProfile(ctx context.Context, tank, path string) error {
	p, err := k.ProfileOf(ctx, tank)
	if err != nil {
		return err
	}
	key, err := k.signer(ctx)
	if err != nil {
		return err
	}
	var b bytes.Buffer
	if err := slip.WriteProfile(&b, p, key); err != nil {
		return err
	}
	return durable.WriteFile(path, b.Bytes(), profileMode)
}

// said is what a tank proposes: its answers, what recurs and how it is fed.
func (k *Keeper) said(ctx context.Context, tank string) (slip.Profile, error) {
	r, err := k.record(ctx, tank)
	if err != nil {
		return slip.Profile{}, err
	}
	p := slip.Profile{Version: slip.Version, MadeBy: maker(), Tank: slip.OneLine(r.Name), Units: r.System, Region: r.Region.Code,
		Answers: map[care.FieldID]care.Answer{}}
	for id, a := range r.Answers {
		if a = slip.Proposed(a); slip.Settable(id) && !a.IsZero() {
			p.Answers[id] = a
		}
	}
	all, err := k.allRounds(ctx, tank)
	if err != nil {
		return slip.Profile{}, err
	}
	seen := map[rounds.Code]bool{}
	for _, x := range all.list {
		at, err := x.Start.Parse()
		if !slip.Proposes(x.Code) || x.Rule.IsZero() || err != nil || seen[x.Code] && x.Code != rounds.Own || len(p.Plan) == slip.MaxRounds {
			continue
		}
		seen[x.Code] = true
		p.Plan = append(p.Plan, slip.Round{Code: x.Code, Rule: x.Rule.String(), At: at.Format("15:04"), Title: slip.OneLine(x.Title), Note: slip.OneLine(x.Note)})
	}
	h, _, err := k.HandedBy(ctx, tank)
	if err != nil {
		return slip.Profile{}, err
	}
	d, draft, err := k.draft(ctx, tank)
	if err != nil {
		return slip.Profile{}, err
	}
	if p.Later = h.Later; draft {
		p.Later = d.later
	}
	if len(all.list) == 0 { // nothing was taken up yet of what was proposed
		p.Plan = h.Plan
	}
	slices.SortStableFunc(p.Plan, func(a, b slip.Round) int {
		return slices.Index(rounds.Usual(), a.Code) - slices.Index(rounds.Usual(), b.Code)
	})
	basis, err := k.FeedingBasisOf(ctx, tank)
	p.Feeding = slip.Feeding{Share: basis.Share, Protein: basis.Protein, Fasting: basis.Fasting.List()}
	return p, err
}

// failures are the steps whose check says act for a tank that is as the profile
// says and nothing else.
func (k *Keeper) failures(p slip.Profile) []care.Step {
	k.mu.Lock()
	region := k.region
	k.mu.Unlock()
	return care.NewFacts(&care.Record{Name: p.Tank, System: p.Units, Region: region, Answers: taken(p), Now: k.now()}).Failed(profileSteps()...)
}

// maker names this program as it was built.
func maker() slip.Maker {
	m := slip.Maker{Program: "Driploop", Version: "devel"}
	if info, ok := debug.ReadBuildInfo(); ok && info.Main.Version != "" {
		m.Version = info.Main.Version
	}
	return m
}

// profileMode lets others of the machine read a profile: it is made to be given
// away.
const profileMode = 0o644

// What is said of a profile beside what reading it found.
const (
	foundRegion working.Key = "find.slip.region" // made for another country
	foundMark   working.Key = "find.slip.mark"   // a check failed where it was made
	foundFails  working.Key = "find.slip.fails"  // a check fails here, and nobody said so
)

// OpenProfile reads the starter profile at path for looking at; nothing is taken
// yet. The findings are those of slip.ReadProfile, and one when the profile was
// made for another country than this daybook: its plugs and tap water differ. The
// first says who signed it. What failed the check of the shop, or fails it here, is
// among them. Errors: *slip.Error.
func (k *Keeper) OpenProfile(ctx context.Context, path string) (slip.Profile, []working.Finding, error) {
	f, size, err := openSlip(ctx, path)
	if err != nil {
		return slip.Profile{}, nil, err
	}
	defer f.Close()
	return k.openProfile(ctx, f, size)
}

func (k *Keeper) openProfile(ctx context.Context, r io.ReaderAt, size int64) (slip.Profile, []working.Finding, error) {
	p, found, err := slip.ReadProfile(r, size)
	if err != nil {
		return slip.Profile{}, nil, err
	}
	k.mu.Lock()
	here := k.region.Code
	k.mu.Unlock()
	if p.Region != "" && here != "" && p.Region != here {
		found = append(found, working.Find(working.Wait, foundRegion).Say("There", p.Region).Say("Here", here))
	}
	for _, s := range p.Marks {
		found = append(found, working.Find(working.Act, foundMark).Word("Step", working.Key("step."+string(s))))
	}
	for _, s := range k.failures(p) {
		if !slices.Contains(p.Marks, s) {
			found = append(found, working.Find(working.Act, foundFails).Word("Step", working.Key("step."+string(s))))
		}
	}
	standing, err := k.standing(ctx, p.Shop.Name, p.Signature)
	if err != nil {
		return slip.Profile{}, nil, err
	}
	return p, append([]working.Finding{standing}, found...), nil
}

func plainFile(info os.FileInfo, err error) error {
	if err != nil {
		return &slip.Error{Code: slip.CodeUnreadable, Err: err}
	}
	if !info.Mode().IsRegular() {
		return &slip.Error{Code: slip.CodeNotFile}
	}
	return nil
}

// TakeProfile makes a new tank from a profile, as one change of the list of tanks:
// its name and its answers, marked as coming from the profile, and who handed it
// over. No other tank, no
// entry, confirmation or setting is touched. Errors: *working.Refusal for tank.name;
// *slip.Error for anything else, which wraps the *working.Refusal of an answer that
// its field does not accept. Nothing is changed then.
func (k *Keeper) TakeProfile(ctx context.Context, p slip.Profile) (string, error) {
	name, err := checkName(p.Tank)
	if err != nil {
		return "", err
	}
	if err := p.Check(); err != nil {
		return "", err
	}
	at, id := k.now(), k.newID()
	ops := []store.Op{{Table: "tank", After: store.Row{"id": id, "name": name, "origin": string(FromProfile), "created": stamp(at)}}}
	card, err := handedOp(id, p, at)
	if err != nil {
		return "", err
	}
	ops = append(ops, card)
	answers := taken(p)
	for _, f := range care.Fields() {
		if a, ok := answers[f.ID]; ok {
			ops = append(ops, k.answerOp(id, f.ID, nil, a, at))
		}
	}
	if err := k.apply(ctx, store.Change{Label: "undo.profile_take", Values: map[string]string{"Name": name}, At: stamp(at), Ops: ops}); err != nil {
		return "", err
	}
	return id, nil
}

// taken is what a profile answers, with what each answer brings along, as if it
// had been typed: a size that is not that of the size chosen from the list leaves
// the list.
func taken(p slip.Profile) map[care.FieldID]care.Answer {
	const nominal = "tank.nominal"
	r := &care.Record{System: p.Units, Answers: map[care.FieldID]care.Answer{
		"tank.system": {Choice: string(p.Units), Origin: care.FromProfile},
		nominal:       {Choice: care.DefaultNominal(p.Units), Origin: care.FromProposal}}}
	put := func(id care.FieldID) {
		for fid, a := range withEffects(r, id, p.Answers[id]) {
			if a.IsZero() {
				delete(r.Answers, fid)
				continue
			}
			if a.Origin == care.FromPerson {
				a.Origin = care.FromProfile
			}
			r.Answers[fid] = a
		}
	}
	fields := p.Fields()
	if _, ok := p.Answers[nominal]; ok {
		put(nominal)
	}
	for _, id := range fields {
		if id != nominal {
			put(id)
		}
	}
	return r.Answers
}
