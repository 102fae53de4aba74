package shell

import (
	"context"

	"example.org/driploop/screens/nav"
	"example.org/driploop/screens/parts"
)

// showBar fills the bar at the top: the tank, the places, and what can be done.
func (s *Shell) showBar() {
	w, ctx := s.present.W, context.Background()
	spec := parts.NavSpec{Current: string(s.route.Place.InBar()), More: w.T("nav.more", nil)}
	if s.route.Tank == "" {
		spec.Tank = w.T("menu.start", nil)
		spec.Places = []parts.Place{{Code: string(nav.Counter), Label: s.present.PlaceName(string(nav.Counter))}}
	} else {
		if b, err := s.o.Keeper.Brief(ctx, s.route.Tank); err == nil {
			spec.Tank = b.Tank.Name
			if !b.Tank.Retired.IsZero() {
				spec.Tank = s.present.TankName(b.Tank)
			}
			if b.Net.Known() {
				spec.Brief = spec.Tank
				spec.Tank = w.Comma(spec.Tank, w.Quantity(b.Net))
			}
		}
		spec.Tanks, spec.At = s.tankList(ctx), s.route.Tank
		for _, p := range nav.Places() {
			spec.Places = append(spec.Places, parts.Place{Code: string(p), Label: s.present.PlaceName(string(p))})
		}
	}
	_, _, undo := s.o.Keeper.UndoLabel(ctx, s.route.Record())
	_, _, redo := s.o.Keeper.RedoLabel(ctx, s.route.Record())
	spec.Actions = []parts.Action{{Code: "undo", Label: w.T("label.undo", nil), Icon: parts.IconUndo, Off: !undo}, {Code: "redo", Label: w.T("label.redo", nil), Icon: parts.IconRedo, Off: !redo},
		{Code: "safety", Label: w.T("menu.safety", nil), Icon: parts.IconHelp}, {Code: "settings", Label: w.T("menu.settings", nil), Icon: parts.IconSettings}}
	s.bar.Set(spec)
}

// action does what a button at the end of the bar stands for.
func (s *Shell) action(code string) {
	switch code {
	case "undo":
		s.Undo()
	case "redo":
		s.Redo()
	case "safety":
		s.ShowSafety()
	case "settings":
		s.ShowSettings()
	}
}
