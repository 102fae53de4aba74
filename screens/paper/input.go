package paper

import (
	"context"
	"errors"
	"time"

	"example.org/driploop/model/care"
	"example.org/driploop/model/keeper"
	"example.org/driploop/model/working"
	"example.org/driploop/screens/present"
)

// Input is everything that the documents show of a tank.
type Input struct {
	Views  map[care.Step]keeper.View // of every step
	Record care.Record               // its Now is the day on the document and must be set
	// Doses is nil where the label of the bottle is not known; Why says why, if
	// there is more to say than that.
	Doses *keeper.Doses
	Why   *working.Refusal
	// Case is what the paper of a case needs beside; nil for the others.
	Case *Matter

	// Visit is what the paper of a visit needs beside; nil for the others.
	Visit *Call

	Stock     present.Stock    // what lives in the tank
	Neighbour keeper.Neighbour // of the document of that name alone
	Stocking  *present.Plan    // of the stocking plan alone, with the tank that it is for
	StockHome keeper.Home
	Bags      []keeper.BagView // of the card of a home-coming alone
	Handed    *handed          // of the sheet of a starter profile alone
	Reply     *answer          // of the paper of a reply alone, which has no tank

	Care *present.CareCalendar // of the care calendar alone

	Presenter present.Presenter
	Size      Size // the zero value is A4
}

// Gather asks the keeper for all that a document shows. Errors: those of the
// keeper; ctx's own.
func Gather(ctx context.Context, k *keeper.Keeper, tank string, p present.Presenter, size Size) (Input, error) {
	p.Kit = k.KitOf
	in := Input{Views: map[care.Step]keeper.View{}, Presenter: p, Size: size}
	var err error
	if in.Record, err = k.Record(ctx, tank); err != nil {
		return Input{}, err
	}
	for _, s := range care.Steps() {
		if err := ctx.Err(); err != nil {
			return Input{}, err
		}
		if in.Views[s], _, err = k.FirstFill(ctx, tank, s); err != nil {
			return Input{}, err
		}
	}
	// A tank whose sizes cannot be has no verdict, and its pages say so.
	if fit, err := k.Fit(ctx, tank); err == nil {
		in.Stock = p.Stock(fit)
	} else if refused := (*working.Refusal)(nil); !errors.As(err, &refused) {
		return Input{}, err
	}
	d, err := k.Doses(ctx, tank)
	switch {
	case err == nil:
		in.Doses = &d
	case errors.As(err, &in.Why), errors.Is(err, care.ErrNotKnown):
	default:
		return Input{}, err
	}
	return in, nil
}

// made is when the document is made, by the clock on the person's wall.
func (in *Input) made() time.Time { return in.Record.Now }

// local gives a time of the record by the clock on the person's wall.
func (in *Input) local(t time.Time) time.Time { return t.In(in.made().Location()) }

// page presents a step.
func (in *Input) page(s care.Step) present.Page { return in.Presenter.Page(in.Views[s], nil) }

// t writes a message without placeholders.
func (in *Input) t(k working.Key) string { return in.Presenter.W.T(k, nil) }
