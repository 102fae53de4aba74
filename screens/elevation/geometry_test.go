package elevation

import (
	"fmt"
	"math"
	"reflect"
	"testing"

	"example.org/driploop/screens/scene"
)

// extent gives the box of a part in millimetres, y upwards, strokes left out.
func extent(t *testing.T, s *scene.Scene, id scene.ID) scene.Box {
	t.Helper()
	b := s.ExtentOf(id, scene.Transform{Scale: 1})
	if b.Empty() {
		t.Fatalf("the scene has no part %q", id)
	}
	return scene.Box{Min: scene.Pt(b.Min.X, -b.Max.Y), Max: scene.Pt(b.Max.X, -b.Min.Y)}
}

func has(s *scene.Scene, id scene.ID) bool {
	return !s.ExtentOf(id, scene.Transform{Scale: 1}).Empty()
}

func near(t *testing.T, what string, got, want, tolerance float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tolerance) {
		t.Errorf("%s: expected %.3f mm within %.3f, got %.3f", what, want, tolerance, got)
	}
}

// tankSizes are usual outer sizes from 5 to 240 US gal, in metres.
// Source: round trade sizes, from memory; only their spread matters here.
var tankSizes = []struct {
	gal     int
	l, w, h float64
}{
	{5, 0.406, 0.203, 0.254}, {10, 0.508, 0.254, 0.305}, {20, 0.762, 0.305, 0.318}, {29, 0.762, 0.305, 0.457},
	{55, 1.219, 0.330, 0.533}, {75, 1.219, 0.457, 0.533}, {125, 1.829, 0.457, 0.533}, {240, 2.438, 0.610, 0.610},
}

// everySpec runs f over shapes, sizes, stands and sides.
func everySpec(t *testing.T, f func(t *testing.T, name string, s Spec)) {
	n := 0
	for _, size := range tankSizes {
		for shape := Box; shape <= Hexagon; shape++ {
			for _, stand := range []float64{0.3, 0.7, 1.2} {
				for _, side := range []Side{Left, Right} {
					s := running()
					s.Fish[2].Adult = 0
					s.Tank.Shape, s.Tank.Length, s.Tank.Width, s.Tank.Height = shape, size.l, size.w, size.h
					s.Tank.Water = size.h * 0.85
					s.Stand.Kind = StandKind(1 + (n % 3))
					s.Stand.Height, s.Socket.Side = stand, side
					s.Filter.Kind = FilterKind(n % 3)
					s.Labels.Length, s.Labels.Height, s.Labels.StandHeight = fmt.Sprintf("%.0f mm", size.l*1000), fmt.Sprintf("%.0f mm", size.h*1000), fmt.Sprintf("%.0f mm", stand*1000)
					s.Loads.Reactions = [2]Reaction{{100, "100 kg"}, {120, "120 kg"}}
					s.Lid.State, s.Lid.Lamp, s.Lid.Cord = State(n%4), true, Cord{Present: true, Plugged: true}
					if n%2 == 1 {
						s.Room.W, s.Room.H = 330, 620
					}
					n++
					f(t, fmt.Sprintf("%d gal, shape %d, stand %.1f m, side %d", size.gal, shape, stand, side), s)
				}
			}
		}
	}
	if n != 8*5*3*2 {
		t.Fatalf("expected 240 drawings, got %d", n)
	}
}

func TestProportionsAreTrue(t *testing.T) {
	everySpec(t, func(t *testing.T, name string, s Spec) {
		sc := Build(s)
		if err := sc.Err(); err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		const exact = 1e-6
		base := s.Stand.Height * 1000
		tank := extent(t, sc, PartTank)
		near(t, name+": tank length", tank.W(), s.Tank.Length*1000, exact)
		near(t, name+": tank left edge", tank.Min.X, 0, exact)
		near(t, name+": tank height", tank.H(), s.Tank.Height*1000, exact)
		near(t, name+": tank on the board", tank.Min.Y, base, exact)
		stand := extent(t, sc, PartStand)
		near(t, name+": stand height", stand.Max.Y, base, exact)
		near(t, name+": feet on the floor", extent(t, sc, PartFeet).Min.Y, 0, exact)
		near(t, name+": floor line", extent(t, sc, PartFloor).Max.Y, 0, exact)
		if !has(sc, PartSocket) {
			t.Fatalf("%s: no socket", name)
		}
		socket := extent(t, sc, PartSocket)
		near(t, name+": socket height", (socket.Min.Y+socket.Max.Y)/2, s.Socket.Height*1000, exact)
		if (s.Socket.Side == Left) != (socket.Max.X < 0) {
			t.Errorf("%s: socket on the wrong side: %v", name, socket)
		}
	})
}

func TestWaterLine(t *testing.T) {
	for _, level := range []float64{0.05, 0.12, 0.2, 0.26} {
		s := running()
		s.Filter, s.Plants = Filter{}, nil
		s.Tank.Water = level
		w := extent(t, Build(s), PartWater)
		l := arrange(s)
		near(t, "bottom of the water", w.Min.Y, 700+5, 1e-6)
		// The surface climbs 2.5 points at the panes.
		near(t, "surface", w.Max.Y, 700+5+level*1000+l.px(2.5), 1e-6)
	}
	s := running()
	s.Tank.Water = 0
	sc := Build(s)
	for _, id := range []scene.ID{PartWater, "danio", "cory"} {
		if has(sc, id) {
			t.Errorf("a dry tank shows %q", id)
		}
	}
	s.Tank.Water = 5
	if top := extent(t, Build(s), PartWater).Max.Y; top > 700+305+arrange(s).px(3) {
		t.Errorf("water stands over the rim: %.1f mm", top)
	}
}

func TestGravelSlopes(t *testing.T) {
	for _, c := range []struct {
		g           Gravel
		left, right float64 // depth at the ends midway from front to back, mm
		most        float64
	}{
		{Gravel{Front: 0.035, Back: 0.06}, 47.5, 47.5, 60},
		{Gravel{Front: 0.06, Back: 0.035}, 47.5, 47.5, 60},
		{Gravel{Left: 0.03, Right: 0.07}, 30, 70, 70},
		{Gravel{Front: 0.04, Back: 0.06, Left: 0.03, Right: 0.07}, 30, 70, 80},
		{Gravel{Front: 0.05, Back: 0.05, Left: 0.05, Right: 0.05}, 50, 50, 50},
	} {
		s := bare()
		s.Gravel = c.g
		l := arrange(s)
		near(t, fmt.Sprint(c.g, " left"), l.ground(l.inLeft())-l.inBottom(), c.left, 1e-9)
		near(t, fmt.Sprint(c.g, " right"), l.ground(l.inRight())-l.inBottom(), c.right, 1e-9)
		b := extent(t, Build(s), PartGravel)
		near(t, fmt.Sprint(c.g, " bottom"), b.Min.Y, l.inBottom(), 1e-6)
		// Grains make the edge uneven by up to 1.2 points.
		near(t, fmt.Sprint(c.g, " top"), b.Max.Y-l.inBottom(), c.most, l.px(1.2)+1e-6)
	}
	if has(Build(bare()), PartGravel) {
		t.Error("gravel is drawn where there is none")
	}
}

func TestCordsHangInDripLoops(t *testing.T) {
	everySpec(t, func(t *testing.T, name string, s Spec) {
		s.Socket.Height = 0.35
		sc := Build(s)
		socket := extent(t, sc, PartSocket)
		for _, id := range []scene.ID{PartHeaterCord, PartFilterCord} {
			c := extent(t, sc, id)
			if c.Min.Y > socket.Min.Y-leastLoop+1e-6 {
				t.Errorf("%s: %s hangs to %.1f mm, the socket's edge is at %.1f: expected 50 mm lower", name, id, c.Min.Y, socket.Min.Y)
			}
			if c.Min.Y < 0 {
				t.Errorf("%s: %s goes through the floor: %.1f mm", name, id, c.Min.Y)
			}
			if rim := (s.Stand.Height + s.Tank.Height) * 1000; c.Max.Y < rim {
				t.Errorf("%s: %s does not go over the rim at %.1f mm: %.1f", name, id, rim, c.Max.Y)
			}
		}
		if has(sc, PartFlag) {
			t.Errorf("%s: flagged although the cords hang right", name)
		}
	})
}

func TestCordsClearTheEdge(t *testing.T) {
	everySpec(t, func(t *testing.T, name string, s Spec) {
		l := arrange(s)
		for i, c := range l.cords() {
			from := scene.Pt(l.beside(c.from.X), c.from.Y)
			for _, p := range l.overRim(from, i, -60, 400) {
				for k := range 33 {
					if q := p.at(float64(k) / 32); q.X >= 0 && q.X < 12 && q.Y < l.rim() {
						t.Fatalf("%s: %s passes through the end pane at (%.1f, %.1f), the rim is at %.1f", name, c.part, q.X, q.Y, l.rim())
					}
				}
			}
		}
	})
}

func TestLoopsDoNotCross(t *testing.T) {
	s := long()
	l := arrange(s)
	w, ok := l.wallSocket()
	if !ok {
		t.Fatal("no socket")
	}
	edge := l.standOuter()
	var loops []bezier
	n := len(l.cords())
	for i, c := range l.cords() {
		way := l.toSocket(scene.Pt(c.from.X, c.from.Y), n-1-i, edge-32-cordPitch*float64(i), scene.Pt(w.outlets[i], w.box.Min.Y+12), w.box.Min.Y, 0)
		loops = append(loops, way.pieces[2])
	}
	if len(loops) != 3 {
		t.Fatalf("expected 3 cords, got %d", len(loops))
	}
	// Each loop lies within and above the one before it.
	for i := 1; i < len(loops); i++ {
		for k := 1; k < 32; k++ {
			in := loops[i].at(float64(k) / 32)
			for j := range 64 {
				out, next := loops[i-1].at(float64(j)/64), loops[i-1].at(float64(j+1)/64)
				if (out.X-in.X)*(next.X-in.X) <= 0 && in.Y <= math.Min(out.Y, next.Y)-0.5 && in.Y < loops[i][0].Y-2 {
					t.Fatalf("loop %d at (%.1f, %.1f) lies under loop %d at %.1f", i, in.X, in.Y, i-1, out.Y)
				}
			}
		}
	}
}

func TestNoRoomForALoopIsFlagged(t *testing.T) {
	s := running()
	s.Labels.NoLoop = "No loop"
	for _, c := range []struct {
		height float64
		flag   bool
	}{{0.05, true}, {0.09, true}, {0.1, true}, {0.11, false}, {0.35, false}, {1.2, false}, {1.5, false}} {
		s.Socket.Height = c.height
		sc := Build(s)
		if got := has(sc, PartFlag); got != c.flag {
			t.Errorf("socket at %.2f m: expected flag %v, got %v", c.height, c.flag, got)
		}
		low := extent(t, sc, PartHeaterCord).Min.Y
		if socket := extent(t, sc, PartSocket); !c.flag && low > socket.Min.Y-leastLoop+1e-6 {
			t.Errorf("socket at %.2f m: cord hangs to %.1f, expected 50 under %.1f", c.height, low, socket.Min.Y)
		}
	}
	s.Socket.Height, s.Heater.Cord.Length = 0.35, 0.6
	if !has(Build(s), PartFlag) {
		t.Error("a cord too short for a loop is not flagged")
	}
	s.Heater.Cord.Length = 3
	if has(Build(s), PartFlag) {
		t.Error("a cord long enough for a loop is flagged")
	}
	s.Labels.BelowWater = "below"
	if !has(Build(s), PartFlag) {
		t.Error("a socket below the water is not marked")
	}
}

func TestUnpluggedLiesOnTheFloor(t *testing.T) {
	s := placed()
	sc := Build(s)
	socket := extent(t, sc, PartSocket)
	for _, id := range []scene.ID{PartHeaterCord, PartFilterCord} {
		c := extent(t, sc, id)
		near(t, string(id)+": plug on the floor", c.Min.Y, 0, 8)
	}
	s.Heater.Cord.Plugged = true
	c := extent(t, Build(s), PartHeaterCord)
	if c.Min.X > socket.Max.X || c.Min.Y < 50 {
		t.Errorf("a plug in the socket is drawn at %v, the socket at %v", c, socket)
	}
}

func TestDeterministic(t *testing.T) {
	for name, s := range samples() {
		s.Labels.Scale = nil // functions are never equal
		if a, b := Build(s), Build(s); !reflect.DeepEqual(a, b) {
			t.Errorf("%s: two drawings of the same differ", name)
		}
	}
}
