package slip

import (
	"bytes"
	"encoding/json"
	"errors"
	"io"
	"strconv"
	"unicode/utf8"

	"example.org/driploop/model/quantity"
)

// tree is a JSON value as it was written: numbers keep their digits.
type tree struct {
	kind    treeKind
	text    string // of a string; the digits of a number
	yes     bool   // of a truth
	items   []tree
	members []member // in the order written
}

type member struct {
	name  string
	value tree
}

type treeKind uint8

const (
	isNull treeKind = iota
	isBool
	isNumber
	isString
	isList
	isObject
)

// parser reads one JSON part under the limits.
type parser struct {
	part string
	d    *json.Decoder
	lim  limits
	left int // of the values that may be there
}

// parse reads the whole of data as one JSON value. Beyond the grammar it refuses a
// key written twice, a number that is not finite and text that is not UTF-8, which
// readers disagree about.
func parse(part string, data []byte, lim limits) (tree, error) {
	if int64(len(data)) > lim.json {
		return tree{}, above(CodeJSONSize, part, float64(lim.json)/1e6)
	}
	if !utf8.Valid(data) {
		return tree{}, refuse(CodeJSON, part)
	}
	p := parser{part: part, d: json.NewDecoder(bytes.NewReader(data)), lim: lim, left: lim.values}
	p.d.UseNumber()
	t, err := p.next()
	if err != nil {
		return tree{}, err
	}
	v, err := p.value(t, 0)
	if err != nil {
		return tree{}, err
	}
	if _, err := p.d.Token(); !errors.Is(err, io.EOF) {
		return tree{}, refuse(CodeJSON, part)
	}
	return v, nil
}

func (p *parser) next() (json.Token, error) {
	t, err := p.d.Token()
	if err != nil {
		return nil, &Error{Code: CodeJSON, Part: p.part, Err: err}
	}
	return t, nil
}

// value reads the value that begins with t inside depth others.
func (p *parser) value(t json.Token, depth int) (tree, error) {
	if p.left--; p.left < 0 {
		return tree{}, above(CodeJSONValues, p.part, float64(p.lim.values))
	}
	switch t := t.(type) {
	case json.Delim:
		if depth == MaxJSONDepth {
			return tree{}, above(CodeJSONDepth, p.part, MaxJSONDepth)
		}
		if t == '[' {
			return p.list(depth + 1)
		}
		return p.object(depth + 1)
	case string:
		return tree{kind: isString, text: t}, p.short(t)
	case json.Number:
		x, err := strconv.ParseFloat(string(t), 64)
		if err != nil || !quantity.Finite(x) {
			return tree{}, refuse(CodeNumber, p.part)
		}
		return tree{kind: isNumber, text: string(t)}, nil
	case bool:
		return tree{kind: isBool, yes: t}, nil
	}
	return tree{kind: isNull}, nil
}

func (p *parser) short(s string) error {
	if len(s) > p.lim.text {
		return above(CodeString, p.part, float64(p.lim.text)/1e3)
	}
	return nil
}

func (p *parser) list(depth int) (tree, error) {
	out := tree{kind: isList}
	for {
		t, err := p.next()
		if err != nil {
			return out, err
		}
		if t == json.Delim(']') {
			return out, nil
		}
		v, err := p.value(t, depth)
		if err != nil {
			return out, err
		}
		out.items = append(out.items, v)
	}
}

func (p *parser) object(depth int) (tree, error) {
	out := tree{kind: isObject}
	seen := map[string]bool{}
	for {
		t, err := p.next()
		if err != nil {
			return out, err
		}
		if t == json.Delim('}') {
			return out, nil
		}
		name, _ := t.(string) // the decoder lets nothing else stand here
		if err := p.short(name); err != nil {
			return out, err
		}
		if seen[name] {
			return out, &Error{Code: CodeTwice, Part: p.part, Place: visible(name)}
		}
		seen[name] = true
		if t, err = p.next(); err != nil {
			return out, err
		}
		v, err := p.value(t, depth)
		if err != nil {
			return out, err
		}
		out.members = append(out.members, member{name, v})
	}
}
