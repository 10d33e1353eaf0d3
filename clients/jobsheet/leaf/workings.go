package leaf

import (
	"strings"

	"example.com/pondwright/clients/internal/figure"
	pb "example.com/pondwright/proto/pondwright/v1"
)

// workings are every step, with its formula, numbers and source.
func (l *leaf) workings() (part, error) {
	p := part{ID: "workings", Title: "Appendix: the workings", Apart: true}
	subject := ""
	var t *table
	flush := func() {
		if t != nil {
			p.Blocks = append(p.Blocks, t.block("")...)
		}
	}
	for _, s := range l.plan.GetWorkings() {
		if t == nil || s.GetSubject() != subject {
			flush()
			subject = s.GetSubject()
			caption := capital(subject)
			if caption == "" {
				caption = "The job"
			}
			t = columns(caption, "Step", "Formula", "Put in", "Comes out", "Source")
		}
		source := sourceText(s.GetSource())
		if s.GetOutsideRange() != "" {
			source += ". Outside the range it claims: " + s.GetOutsideRange()
		}
		t.row(s.GetName(), s.GetEquation(), values(s.GetInputs()), values(s.GetResults()), source)
	}
	flush()
	if len(p.Blocks) > 0 {
		p.Blocks = append(text("Numbers are in SI units, temperatures in degrees Celsius. Each step evaluated again from what is put in gives what comes out."), p.Blocks...)
	}
	return p, nil
}

func values(list []*pb.WorkingValue) string {
	var made []string
	for _, v := range list {
		words := v.GetSymbol() + figure.Space + "=" + figure.Space + figure.Digits(v.GetValue(), 5)
		if v.GetUnit() != "" && v.GetUnit() != "1" {
			words += figure.Space + v.GetUnit()
		}
		made = append(made, words)
	}
	return strings.Join(made, "; ")
}
