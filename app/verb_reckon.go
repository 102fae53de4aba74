package main

import (
	"errors"
	"fmt"
	"io"
	"os"
	"slices"
	"strings"

	"example.org/driploop/i18n"
	"example.org/driploop/model/quantity"
	"example.org/driploop/model/reckon"
	"example.org/driploop/model/working"
)

// list is the word that asks for the names.
const listNames = "list"

// runReckon does a calculation by its name.
func runReckon(c *call) int {
	switch {
	case len(c.rest) == 0:
		return c.refuse("err.verb.which", nil)
	case c.own[flagExample] && c.own[flagSchema]:
		return c.refuse("err.verb.option", i18n.Args{"Word": flagSchema})
	case c.rest[0] == listNames:
		if len(c.own) > 0 {
			return c.refuse("err.verb.extra", i18n.Args{"Word": listNames})
		}
		for _, name := range reckon.Names() {
			fmt.Fprintln(c.stdout, name)
		}
		return exitDone
	}
	calc, ok := reckon.Get(c.rest[0])
	switch {
	case !ok:
		return c.refuse("err.verb.calculation", i18n.Args{"Word": c.rest[0]})
	case c.own[flagExample]:
		return c.write(calc.Example(), nil)
	case c.own[flagSchema]:
		return c.write(calc.Schema())
	}
	return c.calculate(calc)
}

func (c *call) write(raw []byte, err error) int {
	if err == nil {
		_, err = c.stdout.Write(raw)
	}
	if err != nil {
		return c.failed(err)
	}
	return exitDone
}

// calculate reads the input, which ends with the stream, and writes the answer
// with its words.
func (c *call) calculate(calc *reckon.Calculation) int {
	input, err := io.ReadAll(io.LimitReader(c.stdin, reckon.MaxInput+1))
	if err != nil {
		var at *os.PathError
		if errors.As(err, &at) {
			err = at.Err
		}
		return c.failed(err)
	}
	a, err := calc.Run(input)
	if err != nil {
		return c.failed(err)
	}
	raw, err := a.JSON(c.texts(a))
	if code := c.write(raw, err); code != exitDone {
		return code
	}
	if r := a.Refused; r != nil {
		return c.refuse("err.verb.refused", i18n.Args{"Field": r.Field, "Text": c.refusal(a, r.Refusal)})
	}
	return exitDone
}

// texts puts an answer into words.
func (c *call) texts(a *reckon.Answer) reckon.Text {
	p := c.presenter()
	return reckon.Text{
		Finding: p.Say,
		Refusal: func(r *working.Refusal) string { return c.refusal(a, r) },
		Trail: func(t *working.Trail) []string {
			return slices.DeleteFunc(strings.Split(c.words.Trail(t).PlainText(), "\n"), func(line string) bool { return strings.TrimSpace(line) == "" })
		},
		Figure: func(f reckon.Figure) string {
			value := c.figure(a, f.Value)
			if f.Spread != nil && f.Value.Kind != quantity.KindMoney {
				value = c.words.T("verb.reckon.spread", i18n.Args{"Value": value, "Range": c.words.Range(f.Spread.Low, f.Spread.High)})
			}
			if f.Of == "" {
				return value
			}
			return c.words.T("verb.reckon.figure", i18n.Args{"Name": f.Of, "Value": value})
		},
		Check: func(k working.Check) string {
			text := c.words.T("verb.reckon.check", i18n.Args{"Name": k.Name, "Use": c.words.Percent(k.Use), "State": c.words.State(k.State)})
			if k.Finding != nil {
				text += " " + p.Say(*k.Finding)
			}
			return text
		},
	}
}

// figure writes a value; money has its currency from the input.
func (c *call) figure(a *reckon.Answer, v quantity.Value) string {
	if v.Kind == quantity.KindMoney {
		return c.words.Money(v.X, a.Currency())
	}
	return c.words.Quantity(v)
}

// refusal says why an input was not taken, and what would be where that is one of
// a few names.
func (c *call) refusal(a *reckon.Answer, r *working.Refusal) string {
	text := c.words.Refusal(r)
	if a.Refused != nil && len(a.Refused.Accepts) > 0 {
		text += " " + c.words.T("verb.reckon.accepts", i18n.Args{"Names": strings.Join(a.Refused.Accepts, ", ")})
	}
	return text
}
