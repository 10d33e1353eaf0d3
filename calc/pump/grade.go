package pump

import (
	"strings"

	"example.com/pondwright/calc/input"
	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/unit"
)

// A Tolerance is how far flow and head of a pump sold may lie from its curve, either way.
type Tolerance struct {
	Flow, Head unit.Ratio
	Source     source.Source
}

// Usual is the tolerance of ISO 9906 for pumps of 1 to 10 kW where no grade is agreed. Below 1 kW the standard leaves it
// to agreement; garden pumps are sold without any, so this is the least to allow for.
func Usual() Tolerance {
	return Tolerance{Flow: unit.Percent(10), Head: unit.Percent(8), Source: source.ISO9906.At("clause 4.4.2")}
}

// Low is the weakest pump the tolerance lets pass.
func (t Tolerance) Low(p Pump) Pump { return p.scaled(1-t.Flow.Float(), 1-t.Head.Float()) }

// High is the strongest pump the tolerance lets pass.
func (t Tolerance) High(p Pump) Pump { return p.scaled(1+t.Flow.Float(), 1+t.Head.Float()) }

func (p Pump) scaled(flow, head float64) Pump {
	p.flow *= flow
	p.head *= head
	return p
}

// A Grade is an acceptance grade: what a pump may differ from its curve by and still be what was ordered.
type Grade struct {
	Name       string // "1B", "1E", "2B", "3B", or "usual" where none was agreed
	Tolerance  Tolerance
	Efficiency unit.Ratio // how far efficiency may fall short; 0 where none may or it depends on the power
}

// Grades are the acceptance grades that go both ways, finest first. The one-sided grades 1U and 2U promise a least curve, not
// a middle one, and are not among them.
//
// Source: ISO 9906:2012, table 8 and clause 4.4.2, from memory.
func Grades() []Grade {
	table8 := source.ISO9906.At("table 8")
	return []Grade{
		{"1B", Tolerance{unit.Percent(5), unit.Percent(3), table8}, unit.Percent(3)},
		{"1E", Tolerance{unit.Percent(5), unit.Percent(3), table8}, 0},
		{"2B", Tolerance{unit.Percent(8), unit.Percent(5), table8}, unit.Percent(5)},
		{"3B", Tolerance{unit.Percent(9), unit.Percent(7), table8}, unit.Percent(7)},
		{"usual", Usual(), 0},
	}
}

// GradeNamed finds a grade by its name.
func GradeNamed(name string) (Grade, error) {
	var known []string
	for _, g := range Grades() {
		if strings.EqualFold(g.Name, name) {
			return g, nil
		}
		known = append(known, g.Name)
	}
	var errs input.Errors
	errs.Add("grade", "give one of "+strings.Join(known, ", "), "there is no acceptance grade %q", name)
	return Grade{}, errs.Err()
}
