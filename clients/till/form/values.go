package form

import (
	"net/url"
	"slices"
	"strings"
)

// mostTyped is more than any box needs.
const mostTyped = 40

// Values are what was typed and chosen, by the name of the field.
type Values map[string]string

// FromQuery takes the fields out of an address.
func FromQuery(q url.Values) Values {
	v := Values{}
	for _, name := range append(names(), Units) {
		text := strings.TrimSpace(strings.ToValidUTF8(q.Get(name), ""))
		if runes := []rune(text); len(runes) > mostTyped {
			text = string(runes[:mostTyped])
		}
		if text != "" {
			v[name] = text
		}
	}
	return v
}

func names() []string {
	var all []string
	for _, f := range Fields() {
		all = append(all, f.Name)
	}
	return all
}

// Query is the part of an address that holds the values, always in the same order.
func (v Values) Query() url.Values {
	q := url.Values{}
	for name, text := range v {
		if text != "" && (name != Units || text != Systems()[0].Key) {
			q.Set(name, text)
		}
	}
	return q
}

// System is the one the values are in.
func (v Values) System() System { return SystemOf(v[Units]) }

// Empty reports whether nothing was asked yet.
func (v Values) Empty() bool {
	return !slices.ContainsFunc(names(), func(name string) bool { return v[name] != "" && name != Energy })
}

// digitsKept when a number changes its unit: the way back then gives what was there before.
const digitsKept = 5

// In is the same in other units. What is no number stays as it was typed, to be mended.
func (v Values) In(to System) Values {
	from, out := v.System(), Values{}
	for name, text := range v {
		out[name] = text
		f := FieldOf(name)
		if f.Of == Plain || len(f.Choices) > 0 || from.Unit(f.Of) == to.Unit(f.Of) {
			continue
		}
		if x, err := number(text, from.Unit(f.Of)); err == nil {
			out[name] = typed(to.From(f.Of, from.To(f.Of, x)), digitsKept)
		}
	}
	out[Units] = to.Key
	return out
}

// Plain is the same with each number as plain digits: "5 ft 6 in" is 5.5. What is no number stays.
func (v Values) Plain() Values {
	out := Values{}
	for name, text := range v {
		out[name] = text
		f := FieldOf(name)
		if name == Units || len(f.Choices) > 0 || plainNumber.MatchString(text) {
			continue
		}
		if x, err := number(text, v.System().Unit(f.Of)); err == nil {
			out[name] = typed(x, digitsKept)
		}
	}
	return out
}
