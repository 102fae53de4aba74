package shell

import (
	"context"

	"example.org/driploop/i18n"
	"example.org/driploop/model/working"
	"example.org/driploop/screens/nav"
	"example.org/driploop/screens/parts"
)

// What the list of tanks offers beside the tanks; no key of a tank is like it.
const (
	tankAdd = "+"
	tankAll = "*"
)

// tankList is what the tank's name on the bar opens: the tanks, another one, and
// all of them with their state.
func (s *Shell) tankList(ctx context.Context) []parts.Place {
	tanks, err := s.o.Keeper.Tanks(ctx)
	if err != nil {
		return nil
	}
	var out []parts.Place
	for _, t := range tanks {
		out = append(out, parts.Place{Code: t.ID, Label: s.present.TankName(t)})
	}
	return append(out, parts.Place{Code: tankAdd, Label: s.t("page.tanks.add")}, parts.Place{Code: tankAll, Label: s.t("page.tanks.all")})
}

// toTank goes where the list of tanks leads. One stays at the place one is at,
// as far as it is the same for every tank.
func (s *Shell) toTank(code string) {
	switch code {
	case "", tankAll:
		s.Go(nav.Route{Place: nav.Start})
	case tankAdd:
		var id string
		s.work(func(ctx context.Context) (err error) {
			id, err = s.o.Keeper.StartTank(ctx, s.t("page.start.tank_name"), s.present.W.System())
			return err
		}, func(err error) {
			if err != nil {
				s.fail(err)
				return
			}
			s.Go(nav.Route{Place: nav.FirstFill, Tank: id})
		})
	case s.route.Tank:
	default:
		s.Go(nav.Route{Place: s.route.Place, Tank: code})
	}
}

// retire takes the tank out of use, or into use again, with the way back at hand.
func (s *Shell) retire() {
	tank := s.route.Tank
	v, err := s.o.Keeper.Brief(context.Background(), tank)
	if err != nil {
		s.fail(err)
		return
	}
	do, said := s.o.Keeper.RetireTank, working.Key("page.tanks.retired")
	if !v.Tank.Retired.IsZero() {
		do, said = s.o.Keeper.ReuseTank, "page.tanks.reused"
	}
	s.work(func(ctx context.Context) error { return do(ctx, tank) }, func(err error) {
		if err != nil {
			s.fail(err)
			return
		}
		s.page.Refresh()
		s.changed()
		s.say(s.present.W.T(said, i18n.Args{"Name": v.Tank.Name}), s.t("label.undo"), s.Undo)
	})
}

// offerReuse says that the tank is out of use, with what takes it into use again: in a
// line at the foot, or over the panel that is open, which keeps what was typed into it.
func (s *Shell) offerReuse(words string) {
	if len(s.panels) == 0 {
		s.say(words, s.t("menu.reuse"), s.retire)
		return
	}
	var shut func()
	reuse := parts.NewButton(parts.ButtonSpec{ID: "reuse", Label: s.t("menu.reuse"), Kind: parts.Primary}, func() {
		shut()
		s.retire()
	})
	leave := parts.NewButton(parts.ButtonSpec{ID: "close", Label: s.t("label.close")}, func() { shut() })
	shut = s.dialog(s.t("menu.reuse"), s.bodyText(words), parts.NewFlow(reuse, leave))
	if c := s.canvas(); c != nil {
		c.Focus(reuse)
	}
}
