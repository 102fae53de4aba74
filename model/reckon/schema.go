package reckon

import (
	"bytes"
	"encoding/json"
	"reflect"
	"strings"

	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
)

// Schema returns a JSON Schema 2020-12 of a calculation, with "input" and
// "output" among its definitions; the schema itself is that of the input.
func (c *Calculation) Schema() ([]byte, error) {
	d := &drafter{defs: map[string]any{}}
	in := d.shape(c.input())
	out := d.answer(c.output())
	d.defs["input"], d.defs["output"] = in, out
	var b bytes.Buffer
	e := json.NewEncoder(&b)
	e.SetEscapeHTML(false)
	e.SetIndent("", "  ")
	err := e.Encode(map[string]any{
		"$schema": "https://json-schema.org/draft/2020-12/schema",
		"$id":     schemaID(c.name),
		"title":   c.name,
		"$ref":    "#/$defs/input",
		"$defs":   d.defs,
	})
	return b.Bytes(), err
}

// schemaID names a schema; nothing is fetched from there.
func schemaID(name string) string { return "urn:driploop:reckon:" + name }

// drafter drafts schemas and gathers named definitions.
type drafter struct {
	defs   map[string]any
	output bool
}

type schema = map[string]any

func ref(name string) schema { return schema{"$ref": "#/$defs/" + name} }

func object(properties schema, required []string) schema {
	s := schema{"type": "object", "properties": properties, "additionalProperties": false}
	if len(required) > 0 {
		s["required"] = required
	}
	return s
}

func listOf(item schema) schema { return schema{"type": "array", "items": item} }

func orNull(s schema) schema { return schema{"anyOf": []any{s, schema{"type": "null"}}} }

func (d *drafter) shape(s *shape) schema {
	switch s.form {
	case formObject:
		return d.object(s)
	case formList:
		return listOf(d.shape(s.item))
	case formQuantity:
		return d.quantity(s)
	case formNumber:
		return schema{"type": "number"}
	case formWhole:
		return schema{"type": "integer"}
	case formFlag:
		return schema{"type": "boolean"}
	case formChoice:
		if d.output {
			return schema{"enum": append(anys(s.choiceNames()), nil)}
		}
		return schema{"enum": anys(s.choiceNames())}
	case formMoment:
		if d.output {
			return orNull(schema{"type": "string", "format": "date-time"})
		}
		return schema{"type": "string", "format": "date-time"}
	case formCodes:
		return listOf(schema{"type": "string"})
	}
	return schema{"type": "string"}
}

func anys(texts []string) []any {
	out := make([]any, len(texts))
	for i, t := range texts {
		out[i] = t
	}
	return out
}

func (d *drafter) object(s *shape) schema {
	name := s.name
	if name == "" {
		return d.fields(s)
	}
	if d.output {
		name = "result." + name
	}
	if _, ok := d.defs[name]; !ok {
		d.defs[name] = true // a type that holds itself meets its own name
		d.defs[name] = d.fields(s)
	}
	return ref(name)
}

func (d *drafter) fields(s *shape) schema {
	properties, required := schema{}, []string{}
	for _, f := range s.fields {
		of := d.shape(f.shape)
		if d.output && (f.shape.form == formObject || f.shape.form == formWhole && s.typ.Field(f.index).Type.Kind() == reflect.Pointer) {
			of = orNull(of)
		}
		properties[f.name] = of
		if f.required || d.output {
			required = append(required, f.name)
		}
	}
	return object(properties, required)
}

// quantity drafts a quantity of the given kinds, each kind once.
func (d *drafter) quantity(s *shape) schema {
	if d.output {
		return orNull(d.amount())
	}
	kinds := s.kinds
	if len(kinds) == 0 {
		kinds = quantity.Kinds()
	}
	basis := ""
	switch {
	case s.species != "":
		basis = "required"
	case s.open:
		basis = "open"
	}
	var of []any
	for _, k := range kinds {
		of = append(of, d.kind(k, basis))
	}
	if len(of) == 1 {
		return of[0].(schema)
	}
	return schema{"anyOf": of}
}

func (d *drafter) kind(k quantity.Kind, basis string) schema {
	name := strings.TrimSuffix("quantity."+k.String()+"."+basis, ".")
	if _, ok := d.defs[name]; !ok {
		unit := schema{"type": "string", "pattern": "^[A-Z]{3}$"}
		if us := quantity.UnitsOf(k); len(us) > 0 {
			codes := make([]any, len(us))
			for i, u := range us {
				codes[i] = string(u.Code)
			}
			unit = schema{"enum": codes}
		}
		properties := schema{"value": schema{"type": "number"}, "unit": unit}
		required := []string{"value", "unit"}
		if basis != "" {
			properties["basis"] = schema{"enum": []any{string(quantity.AsN), string(quantity.AsIon)}}
		}
		if basis == "required" {
			required = append(required, "basis")
		}
		d.defs[name] = object(properties, required)
	}
	return ref(name)
}

func (d *drafter) amount() schema {
	if _, ok := d.defs["amount"]; !ok {
		d.defs["amount"] = object(schema{"value": schema{"type": "number"}, "unit": schema{"type": "string"},
			"basis": schema{"enum": []any{string(quantity.AsN), string(quantity.AsIon)}}}, []string{"value", "unit"})
	}
	return ref("amount")
}

// answer drafts the output: what every calculation says, with its own values.
func (d *drafter) answer(values *shape) schema {
	d.output = true
	text, state := schema{"type": "string"}, schema{"enum": []any{"steady", "wait", "act"}}
	amount := d.amount()
	end := orNull(amount)
	d.defs["spread"] = object(schema{"low": amount, "high": amount, "why": text}, []string{"low", "high", "why"})
	d.defs["limit"] = object(schema{"name": text, "low": end, "high": end}, []string{"name", "low", "high"})
	texts := func(of schema) schema { return schema{"type": "object", "additionalProperties": of} }
	d.defs["finding"] = object(schema{"code": text, "state": state, "values": texts(end), "words": texts(text), "said": texts(text), "text": text},
		[]string{"code", "state", "values", "words", "said"})
	d.defs["check"] = object(schema{"name": text, "state": state, "use": schema{"type": "number"}, "demand": end, "capacity": end,
		"finding": orNull(ref("finding")), "text": text}, []string{"name", "state", "use", "demand", "capacity", "finding"})
	d.defs["typed"] = object(schema{"number": schema{"type": "string", "pattern": `^-?[0-9]+(\.[0-9]+)?$`}, "unit": text,
		"basis": schema{"enum": []any{string(quantity.AsN), string(quantity.AsIon)}}}, []string{"number", "unit"})
	d.defs["given"] = object(schema{"symbol": text, "name": text, "value": end, "typed": ref("typed"), "source": text}, []string{"symbol", "name", "value"})
	d.defs["step"] = object(schema{"symbol": text, "name": text, "formula": text, "value": end, "source": text}, []string{"symbol", "name", "formula", "value"})
	d.defs["working"] = object(schema{"ask": text, "givens": listOf(ref("given")), "steps": listOf(ref("step")), "result": end,
		"spread": orNull(ref("spread")), "strength": schema{"enum": []any{string(working.Robust), string(working.Ranged), string(working.RuleOfThumb)}},
		"valid": listOf(ref("limit")), "assumes": listOf(text), "sources": listOf(text), "text": listOf(text)},
		[]string{"ask", "givens", "steps", "result", "spread", "strength", "valid", "assumes", "sources"})
	d.defs["source"] = object(schema{"id": text, "cite": text, "origin": text}, []string{"id", "cite", "origin"})
	d.defs["refused"] = object(schema{"field": text, "code": text, "values": texts(end), "accept": orNull(ref("limit")), "accepts": listOf(text), "text": text},
		[]string{"field", "code", "values", "accept", "accepts"})
	return object(schema{"name": schema{"type": "string"}, "result": orNull(schema{"type": "number"}), "unit": orNull(text), "of": orNull(text),
		"spread": orNull(ref("spread")), "text": text, "values": orNull(d.shape(values)), "working": listOf(ref("working")),
		"sources": listOf(ref("source")), "findings": listOf(ref("finding")), "checks": listOf(ref("check")), "refused": orNull(ref("refused"))},
		[]string{"name", "result", "unit", "of", "spread", "values", "working", "sources", "findings", "checks", "refused"})
}
