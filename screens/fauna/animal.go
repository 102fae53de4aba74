package fauna

import (
	"math"

	"example.org/driploop/model/fish"
	"example.org/driploop/screens/look"
	"example.org/driploop/screens/scene"
)

// Pose says where and how an animal is shown.
type Pose struct {
	At    scene.Point // the middle of its length, on the axis of its body, in millimetres
	Left  bool        // it faces left; else right
	Scale float64     // points to a millimetre on the screen; 0 draws all there is
	Paper bool        // for print in ink alone: white within
}

// known is whether a length can be drawn.
func known(length float64) bool { return length > 0 && !math.IsInf(length, 0) }

func sketchOf(code fish.Code) *sketch {
	t := load()
	if s, ok := t.sketches[code]; ok {
		return s()
	}
	return t.sketches[""]()
}

// Animal gives the drawing of an animal so long, in millimetres.
func Animal(code fish.Code, length float64, p Pose) []scene.Item {
	if !known(length) {
		return nil
	}
	size := p.size(length)
	var out []scene.Item
	for _, l := range sketchOf(code).layers {
		if l.least > size {
			continue
		}
		st := scene.Style{Fill: p.tint(l.fill)}
		if l.alpha > 0 {
			st.Alpha = l.alpha
		}
		if l.line != "" {
			line := scene.Style{Stroke: l.line, Width: weight(size) * l.weight, Alpha: l.faint}
			if p.Paper {
				line.Stroke = look.Ink
			}
			if l.fill == "" || st.Alpha == line.Alpha {
				st.Stroke, st.Width, st.Alpha = line.Stroke, line.Width, line.Alpha
			} else {
				out = append(out, p.item(l, length, st))
				st = line
			}
		}
		if st.Fill == "" && st.Stroke == "" {
			continue
		}
		if l.dot > 0 {
			out = append(out, p.dot(l, length, size, st))
			continue
		}
		out = append(out, p.item(l, length, st))
	}
	return out
}

// Outline gives the contour of an animal so long in one style: body and fins.
func Outline(code fish.Code, length float64, p Pose, st scene.Style) []scene.Item {
	if !known(length) {
		return nil
	}
	var out []scene.Item
	for _, l := range sketchOf(code).layers {
		if l.ghost {
			out = append(out, p.item(l, length, st))
		}
	}
	return out
}

// Box gives the room that an animal so long takes about Pose.At when it faces
// right, fins and feelers included, in millimetres; empty when the length is
// not known.
func Box(code fish.Code, length float64) scene.Box {
	if !known(length) {
		return scene.EmptyBox()
	}
	b := sketchOf(code).bounds
	return scene.Box{Min: b.Min.Mul(length), Max: b.Max.Mul(length)}
}

// size is how many points the animal is long on the screen.
func (p Pose) size(length float64) float64 {
	if !(p.Scale > 0) {
		return 1000
	}
	return p.Scale * length
}

// weight gives the line weight of an outline for an animal so many points long.
func weight(size float64) float64 {
	return hold(.45+size/90, .6, 1.5) // judgement: a hair on the smallest, a pen on the largest
}

func (p Pose) tint(c look.Name) look.Name {
	if !p.Paper || c == "" {
		return c
	}
	if c == look.PigmentBlack {
		return look.Ink
	}
	return look.Sheet
}

func (p Pose) move(length float64) func(scene.Point) scene.Point {
	way := length
	if p.Left {
		way = -length
	}
	return func(q scene.Point) scene.Point { return scene.Pt(p.At.X+q.X*way, p.At.Y+q.Y*length) }
}

func (p Pose) item(l layer, length float64, st scene.Style) *scene.Path {
	n := 0
	for _, c := range l.shape {
		n += len(c.nodes)
	}
	path := scene.NewPath(st).Grow(n + len(l.shape))
	move := p.move(length)
	for _, c := range l.shape {
		c.add(path, move)
	}
	return path
}

// dot gives a spot that stays large enough to be seen.
func (p Pose) dot(l layer, length, size float64, st scene.Style) scene.Item {
	b := l.shape[0].extent()
	r := math.Max(b.W()/2*length, l.dot/2*length/size)
	return scene.Circle(p.move(length)(b.Min.Add(b.Max).Mul(.5)), r, st)
}
