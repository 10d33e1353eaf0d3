package sheet

import (
	"fmt"
	"strings"

	"example.com/pondwright/clients/internal/figure"
	"example.com/pondwright/clients/internal/page"
	pondwrightv1 "example.com/pondwright/proto/pondwright/v1"
)

// workings prints every step of the calculation, those about one thing together.
func (s *sheet) workings() {
	s.Heading("Workings")
	if len(s.answer.GetWorkings()) == 0 {
		s.Text(2, page.Plain("The engine sent none."))
		return
	}
	number := 0
	for _, g := range bySubject(s.answer.GetWorkings()) {
		s.Subheading(g.subject)
		for _, step := range g.steps {
			number++
			s.step(number, step)
		}
	}
}

type group struct {
	subject string
	steps   []*pondwrightv1.WorkingStep
}

// bySubject gathers the steps by what they are about, in the order in which that was first spoken of.
func bySubject(steps []*pondwrightv1.WorkingStep) []group {
	var groups []group
	place := map[string]int{}
	for _, step := range steps {
		i, ok := place[step.GetSubject()]
		if !ok {
			i = len(groups)
			place[step.GetSubject()] = i
			groups = append(groups, group{subject: capital(step.GetSubject())})
			if step.GetSubject() == "" {
				groups[i].subject = "The pond as a whole"
			}
		}
		groups[i].steps = append(groups[i].steps, step)
	}
	return groups
}

// stepWidth holds the number of a step.
const stepWidth = 6

func (s *sheet) step(number int, step *pondwrightv1.WorkingStep) {
	s.Blank()
	s.Hang(stepWidth, page.Plainf("%d", number), page.Strong(capital(step.GetName())), page.Faint("  "+step.GetFormulaId()))
	s.Hang(stepWidth, page.Plain(""), page.Plain(step.GetEquation()))
	if len(step.GetInputs()) > 0 {
		s.Hang(stepWidth, page.Plain(""), page.Plain("with "+values(step.GetInputs())))
	}
	s.Hang(stepWidth, page.Plain(""), page.Plain("gives "), page.Strong(values(step.GetResults())))
	if source := sourceText(step.GetSource()); source != "" {
		s.Hang(stepWidth, page.Plain(""), page.Faint("Source: "+source))
	}
	if step.GetOutsideRange() != "" {
		s.Hang(stepWidth, page.Plain(""), page.Warn("Outside its range: "), page.Plain(sentence(step.GetOutsideRange())))
	}
}

func values(all []*pondwrightv1.WorkingValue) string {
	texts := make([]string, len(all))
	for i, v := range all {
		texts[i] = value(v)
	}
	return strings.Join(texts, "; ")
}

// value writes "Q = 0.002225 m³/s (8,010 L/h)" in one piece.
func value(v *pondwrightv1.WorkingValue) string {
	text := fmt.Sprintf("%s = %s", v.GetSymbol(), figure.Digits(v.GetValue(), 5))
	if unit := v.GetUnit(); unit != "" && unit != "1" {
		text += " " + unit
	}
	if also, ok := everyday[v.GetUnit()]; ok && v.GetValue() != 0 && also.helps(v.GetValue()) {
		text += " (" + figure.Digits(v.GetValue()*also.factor, 4) + " " + also.unit + ")"
	}
	return strings.ReplaceAll(text, " ", figure.Space)
}

// everydayUnit is a unit that people read more easily than the SI one beside it.
type everydayUnit struct {
	unit   string
	factor float64
	below  float64 // it helps only with numbers smaller than this; 0 is always
}

func (u everydayUnit) helps(x float64) bool { return u.below == 0 || x < u.below && x > -u.below }

const (
	hour = 3600
	day  = 24 * hour
)

var everyday = map[string]everydayUnit{
	"m³/s":      {unit: "L/h", factor: 1000 * hour},
	"m³":        {unit: "L", factor: 1000},
	"m":         {unit: "mm", factor: 1000, below: 1},
	"m²":        {unit: "cm²", factor: 10_000, below: 0.1},
	"kg/s":      {unit: "g/day", factor: 1000 * day},
	"kg/(m² s)": {unit: "g/(m² day)", factor: 1000 * day},
	"kg/(m³ s)": {unit: "g/(m³ day)", factor: 1000 * day},
	"kg/m³":     {unit: "mg/L", factor: 1000, below: 10},
	"kg":        {unit: "g", factor: 1000, below: 1},
	"W/m²":      {unit: "mW/cm²", factor: 0.1},
	"J/m²":      {unit: "mJ/cm²", factor: 0.1},
	"J":         {unit: "kWh", factor: 1.0 / (1000 * hour)},
	"1/m":       {unit: "1/cm", factor: 0.01},
	"Pa":        {unit: "kPa", factor: 0.001},
	"1/s":       {unit: "1/day", factor: day},
}
