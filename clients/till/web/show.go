package web

import (
	"html/template"
	"strings"

	"example.com/pondwright/clients/internal/figure"
	"example.com/pondwright/clients/till/form"
)

// viewer turns answers into what the page says, in the customer's units.
type viewer struct {
	system form.System
	values form.Values
}

// round writes a number of the contract in the customer's unit, to three digits: as closely as somebody at a counter wants it.
func (v viewer) round(q form.Quantity, x float64) string {
	return figure.Digits(v.system.From(q, x), 3) + figure.Space + strings.ReplaceAll(v.system.Unit(q).Symbol, " ", figure.Space)
}

var funcs = template.FuncMap{
	"fields": func(names ...string) []form.Field {
		var found []form.Field
		for _, name := range names {
			found = append(found, form.FieldOf(name))
		}
		return found
	},
	"ask":     func(p page, f form.Field) asked { return asked{Page: p, Field: f} },
	"systems": form.Systems,
	"label":   func(field string) string { return form.FieldOf(field).Label },
	"kind":    func(kind string) string { return kindNames[kind] },
	"last":    func(i, n int) bool { return i == n-1 },
	"pick":    func(p page, kind string) picker { return newPicker(p, kind) },
	"on":      func(k kit, p page) kitOf { return kitOf{k, p} },
	"capital": capital,
	"kinds":   func() []string { return single },
}

// asked is a field as it stands in a page.
type asked struct {
	Page  page
	Field form.Field
}

// Value that was typed.
func (a asked) Value() string { return a.Page.Values[a.Field.Name] }

// Fault of the field.
func (a asked) Fault() string { return a.Page.Faults.Of(a.Field.Name) }

// Unit that the number is in.
func (a asked) Unit() form.Unit {
	if a.Field.Of != form.Plain || a.Page.Currency == "" || a.Field.Whole {
		return a.Page.System.Unit(a.Field.Of)
	}
	return form.Unit{Symbol: a.Page.Currency, Words: a.Page.Currency}
}

// Described lists the elements that describe the field, for those who hear it.
func (a asked) Described() string {
	var ids []string
	if a.Fault() != "" {
		ids = append(ids, "fault-"+a.Field.Name)
	}
	if a.Field.Hint != "" {
		ids = append(ids, "hint-"+a.Field.Name)
	}
	return strings.Join(ids, " ")
}

func capital(text string) string {
	for i, r := range text {
		return strings.ToUpper(string(r)) + text[i+len(string(r)):]
	}
	return text
}
