package photos

import (
	"context"

	"example.org/driploop/model/keeper"
	"example.org/driploop/screens/parts"
)

// newFishCode is the option that gives a fish a name.
const newFishCode = "+"

// fishless is the option of those that show no fish by name.
const fishless = "-"

// fishOptions are the fish of the tank to choose among, with one more to name
// another; none is the label of the empty choice.
func (c common) fishOptions(none string) ([]parts.Option, error) {
	fish, err := c.deps.Keeper.FishOf(context.Background(), c.tank)
	out := []parts.Option{{Label: none}}
	for _, f := range fish {
		out = append(out, parts.Option{Code: f.ID, Label: c.deps.Present.FishName(f)})
	}
	return append(out, parts.Option{Code: newFishCode, Label: c.t("page.photo.new_fish")}), err
}

// nameFish asks for the name of a fish and hands its key on.
func (c common) nameFish(then func(id string)) {
	w := c.deps.Present.W
	f := parts.NewField(parts.FieldSpec{ID: "fish_name", Label: c.t("page.photo.fish_name"), Hint: c.t("page.photo.fish_hint")})
	var shut func()
	save := func() {
		var id string
		name := f.Text()
		c.deps.Work(func(ctx context.Context) (err error) {
			id, err = c.deps.Keeper.AddFish(ctx, c.tank, keeper.Fish{Name: name, Count: 1})
			return err
		}, func(err error) {
			if words, ok := w.Problem(err); err != nil && ok {
				s := f.Spec()
				s.Error = words
				f.Set(s)
				return
			}
			shut()
			if err != nil {
				c.deps.Fail(err)
				return
			}
			c.deps.Changed()
			then(id)
		})
	}
	f.OnEnter = save
	shut = c.deps.Dialog(c.t("page.photo.new_fish"), f, parts.NewFlow(
		c.deps.Button("keep", "label.save", parts.Primary, save),
		c.deps.Button("cancel", "label.cancel", parts.Secondary, func() { shut() })))
	c.focus(f.Focusable())
}
