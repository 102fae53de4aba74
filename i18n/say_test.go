package i18n

import (
	"errors"
	"fmt"
	"strings"
	"testing"
	"time"

	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
)

func plainSpaces(s string) string { return strings.ReplaceAll(s, nb, " ") }

func TestRefusals(t *testing.T) {
	us, es := Speak("en", "US", quantity.US), speak("es", "ES", quantity.Metric)
	temp := func(x float64) quantity.Value { return quantity.Temperature(x).Value() }
	outside := working.InRange("t", "q.t", temp(40), temp(15), temp(30))
	hair := working.InRange("t", "q.t", temp(30.0004), temp(15), temp(30))
	low := &working.Refusal{Field: "t", Code: "refuse.outside", Values: map[string]quantity.Value{"Value": temp(1)}, Accept: working.Limit{Low: temp(15)}}
	high := &working.Refusal{Field: "t", Code: "refuse.outside", Values: map[string]quantity.Value{"Value": temp(41)}, Accept: working.Limit{High: temp(30)}}
	for _, c := range []struct {
		w    *Words
		err  error
		want string
	}{
		{us, outside, "Between 59 °F and 86 °F. You typed 104 °F."},
		{es, outside, "Entre 15 °C y 30 °C. Has escrito 40 °C."},
		{es, hair, "Entre 15 °C y 30 °C. Has escrito 30,0004 °C."},
		{us, low, "At least 59 °F. You typed 33.8 °F."},
		{es, high, "Como máximo 30 °C. Has escrito 41 °C."},
		{us, fmt.Errorf("field: %w", working.Refuse("t", "refuse.missing")), "This is missing. Type a value."},
	} {
		got, ok := c.w.Problem(c.err)
		if !ok || plainSpaces(got) != c.want {
			t.Errorf("want %q, got %q, %v", c.want, got, ok)
		}
	}
	if s, ok := us.Problem(errors.New("disk full")); ok || s != "" {
		t.Errorf("an error that is no refusal: got %q", s)
	}
}

func TestParseErrors(t *testing.T) {
	us, en, es := Speak("en", "US", quantity.US), Speak("en", "GB", quantity.Metric), speak("es", "ES", quantity.Metric)
	for _, c := range []struct {
		w    *Words
		text string
		want string
	}{
		{us, "", "Type a value, for example 15 gal."},
		{es, "", "Escribe un valor, por ejemplo 57 L."},
		{en, "1,234", "“1,234” can mean two numbers. Type 1234 or 1.234."},
		{es, "1.234 l", "«1.234» puede ser dos números. Escribe 1234 o 1,234."},
		{en, "15 gal", "A US gallon holds a sixth less than an imperial one, and ounces differ too. Type “US gal” or “imp gal”, “US fl oz” or “imp fl oz”."},
		{en, "abc", "“abc” is not a number. Type digits and a unit, for example 57 L."},
		{us, "5 furlong", "“furlong” is not a unit known here. Use gal, L, imp gal, m³ or mL, for example 15 gal."},
		{en, "5 kg", "“kg” measures something else. Use L, US gal, imp gal, m³ or mL, for example 57 L."},
		{en, strings.Repeat("9", 1<<16), "This is too long for a quantity. Type a number and a unit, for example 57 L."},
		{en, "\u202e5\nx", "“5 x” is not a number. Type digits and a unit, for example 57 L."},
		{en, strings.Repeat("x", 50), "“" + strings.Repeat("x", 30) + "…” is not a number. Type digits and a unit, for example 57 L."},
	} {
		_, err := quantity.Parse(c.text, quantity.KindVolume, c.w.Reading(quantity.KindVolume, Tank))
		got, ok := c.w.Problem(err)
		if !ok || plainSpaces(got) != c.want {
			t.Errorf("%.20q: want %q, got %q", c.text, c.want, plainSpaces(got))
		}
	}
}

// Every code for every kind gives a whole sentence, and the example in it can be
// typed.
func TestParseErrorsOfEveryKind(t *testing.T) {
	codes := []quantity.ErrorCode{quantity.CodeEmpty, quantity.CodeTooLong, quantity.CodeNotNumber, quantity.CodeAmbiguousNumber, quantity.CodeUnknownUnit, quantity.CodeWrongKind}
	for _, w := range readers() {
		for _, k := range quantity.Kinds() {
			for _, code := range codes {
				s := w.ParseError(&quantity.ParseError{Code: code, Text: "1,234", Token: "1,234", Kind: k})
				if strings.Contains(strings.ReplaceAll(s, "«1,234»", ""), "«") || !strings.HasSuffix(s, ".") {
					t.Errorf("%s %s %s: %q", w.lang, k, code, s)
				}
			}
			r := w.Reading(k, General)
			if k == quantity.KindMoney {
				r.Unit = "USD"
			}
			if _, err := quantity.Parse(w.Example(k), k, r); err != nil {
				t.Errorf("%s: the example %q of %s cannot be typed: %v", w.lang, w.Example(k), k, err)
			}
		}
		for _, k := range []quantity.Kind{quantity.KindVolume, quantity.KindFlow} {
			if s := w.ParseError(&quantity.ParseError{Code: quantity.CodeAmbiguousUnit, Token: "gal", Kind: k}); !strings.Contains(s, "imp gal") {
				t.Errorf("%s %s: %q", w.lang, k, s)
			}
		}
	}
}

func TestFindingPutsValuesWordsAndTextIn(t *testing.T) {
	w := Speak("en", "US", quantity.US)
	f := working.Find(working.Act, "refuse.outside").With("Low", quantity.Litres(37.854).Value()).Word("High", "label.today").Say("Value", "{{.Low}}")
	if got := plainSpaces(w.Finding(f)); got != "Between 10 gal and Today. You typed {{.Low}}." {
		t.Errorf("got %q", got)
	}
	if w.State(working.Act) != "Act" || speak("es", "", quantity.Metric).State(working.Wait) != "Espera" {
		t.Error("the states have other words")
	}
	got := w.T("refuse.outside", Args{"Low": 3, "High": 2.54, "Value": time.Date(2026, 1, 2, 0, 0, 0, 0, time.UTC)})
	if got != "Between 3 and 2.54. You typed 2 January 2026." {
		t.Errorf("got %q", got)
	}
	if got := w.T("working.typed", Args{"Typed": struct{}{}}); got != "You gave «?»." {
		t.Errorf("got %q", got)
	}
}

// The trail of a volume: 61 cm × 30 cm × 30 cm = 54.9 L; 997 kg/m³ × 54.9 L =
// 54.7 kg. Source: arithmetic.
func trail() *working.Trail {
	t := working.New("working.asked").
		Given("L", "label.today", quantity.Length(0.61).Value()).
		Given("W", "label.add", quantity.Length(0.3).Value()).
		Constant("ρ", "label.help", quantity.Density(997).Value(), working.Trade).
		Step("V", "label.open", "V = L·W·0.3 m", quantity.Litres(54.9).Value(), working.Algebra).
		Step("m", "label.print", "m = ρ·V", quantity.Mass(54.7).Value(), "").
		Between(quantity.Mass(50).Value(), quantity.Mass(60).Value(), "label.not_measured").
		Within("label.today", quantity.Length(0.2).Value(), quantity.Length(2).Value()).
		Within("label.add", quantity.Length(0.2).Value(), quantity.Value{}).
		Assume("label.done")
	t.Givens[0].Typed = quantity.Measure{Number: "24.0", Unit: "in"}
	return t
}

const trailInEnglish = `What was asked
A fair estimate. Expect a value in the range.

Given
  Today: L = 61 cm. You gave 24.0 in.
  Add: W = 30 cm
  Help: ρ = 997 kg/m³ [1]

Steps
  Open: V = L·W·0.3 m = 61 cm·30 cm·0.3 m = 54.9 L [2]
  Print: m = ρ·V = 997 kg/m³·54.9 L = 54.7 kg

Result
  Print: m = 54.7 kg. Expect 50 to 60 kg. Not measured

Holds for
  Today: 20 to 200 cm
  Add: 20 cm or more

Sources
  [1] Common practice of the trade, no source (common practice, no source)
  [2] Exact algebra from definitions and conservation of mass or energy (exact by definition)

Assumed
  Done
`

func TestTrail(t *testing.T) {
	en, es := Speak("en", "GB", quantity.Metric), speak("es", "ES", quantity.Metric)
	if got := plainSpaces(en.Trail(trail()).PlainText()); got != trailInEnglish {
		t.Errorf("want\n%s\ngot\n%s", trailInEnglish, got)
	}
	got := plainSpaces(es.Trail(trail()).PlainText())
	if !strings.Contains(got, "V = L·W·0,3 m = 61 cm·30 cm·0,3 m = 54,9 L") || !strings.Contains(got, "Supuestos") {
		t.Errorf("got\n%s", got)
	}
	if empty := en.Trail(nil); empty.Question != "" || len(empty.Parts) != 0 {
		t.Errorf("a nil trail: got %+v", empty)
	}
}

func TestFill(t *testing.T) {
	known := map[string]string{"L": "61 cm", "t": "−2 °C", "ρ": "997 kg/m³", "k_s": "0.6", "p₁": "3 Pa", "e": "9"}
	for in, want := range map[string]string{
		" L·2":        " 61 cm·2",
		" L²":         " (61 cm)²",
		" L^2":        " (61 cm)^2",
		" t + 2":      " (−2 °C) + 2",
		" 2/ρ":        " 2/(997 kg/m³)",
		" k_s·p₁":     " 0.6·3 Pa",
		" exp(e)":     " exp(9)",
		" L2 + kL":    " L2 + kL",
		" 1e3 + V":    " 1e3 + V",
		" √(L) − L_x": " √(61 cm) − L_x",
	} {
		if got := fill(in, known); got != want {
			t.Errorf("%q: want %q, got %q", in, want, got)
		}
	}
}
