package paper

import (
	"context"
	"fmt"
	"io"

	"example.org/driploop/i18n"
	"example.org/driploop/model/keeper"
	"example.org/driploop/model/working"
	"example.org/driploop/screens/present"
)

// Kind names a document. It is stable and serves as a word on the command line
// and, with its ending, as a file's name.
type Kind string

// The documents.
const (
	Sheet Kind = "setup-sheet" // the tank, its loads, doses, the work in order, what was done
	Kit   Kind = "kit-list"    // what to have and what to buy
	// Neighbour is what whoever looks after the tank is to do while one is away;
	// only a tank with a time away has it.
	Neighbour Kind = "neighbour"
	// Home is the card of a home-coming; only a tank with bags on their way has it.
	Home Kind = "home-coming"
)

// Kinds lists the documents that every tank has.
func Kinds() []Kind { return []Kind{Sheet, Kit} }

var titles = map[Kind]working.Key{Case: "paper.case", Sheet: "paper.sheet", Kit: "paper.kit", Neighbour: "paper.neighbour", Stocking: "paper.stocking", Home: "paper.home", Profile: "paper.profile", VisitSlip: "paper.visit", ReplySlip: "page.reply.heading", CareCalendar: "paper.care"}

// Title names a document in the person's language; an unknown one is named by
// its code.
func Title(k Kind, w *i18n.Words) string {
	if t, ok := titles[k]; ok {
		return w.T(t, nil)
	}
	return string(k)
}

// FileName is the name proposed for a document's file.
func (k Kind) FileName() string { return string(k) + ".pdf" }

// UnknownKindError says that there is no such document.
type UnknownKindError struct{ Kind Kind }

// Error implements error for logs.
func (e *UnknownKindError) Error() string {
	return fmt.Sprintf("paper: no document %q", string(e.Kind))
}

// Write makes a document about a tank and writes it to out. Nothing is written
// before the document is complete. Errors: *UnknownKindError, a *working.Refusal
// of the keeper (the tank is gone), ctx's own, and those of out.
func Write(ctx context.Context, kind Kind, k *keeper.Keeper, tank string, p present.Presenter, size Size, out io.Writer) error {
	if _, ok := titles[kind]; !ok {
		return &UnknownKindError{kind}
	}
	if kind == Profile { // of a starter profile in work, which tank names here
		r, err := k.PrepareHandOut(ctx, tank)
		if err != nil {
			return err
		}
		return WriteProfile(ctx, k, tank, r, []string{""}, p, size, out)
	}
	switch kind {
	case Case:
		return WriteCase(ctx, k, tank, "", p, size, out, nil)
	case CareCalendar:
		return WriteCareCalendar(ctx, k, tank, keeper.CareDays, p, size, out)
	case VisitSlip:
		return WriteVisit(ctx, k, tank, keeper.VisitAsk{Days: keeper.VisitDays, Language: p.W.Language()}, p, size, out, nil)
	}
	in, err := Gather(ctx, k, tank, p, size)
	if err != nil {
		return err
	}
	switch kind {
	case Kit:
		return KitList(out, in)
	case Home:
		if in.Bags, err = k.Bags(ctx, tank); err != nil {
			return err
		}
		if len(in.Bags) == 0 {
			return noBag()
		}
		return write(out, Home, in, true)
	case Neighbour:
		if in.Neighbour, err = k.Neighbour(ctx, tank); err != nil {
			return err
		}
		return write(out, Neighbour, in, true)
	case Stocking:
		if err = in.gatherStocking(ctx, k, tank); err != nil {
			return err
		}
		return write(out, Stocking, in, true)
	}
	return SetUpSheet(out, in)
}
