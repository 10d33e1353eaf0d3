package leaf

import (
	"fmt"
	"strings"

	"example.com/pondwright/clients/internal/figure"
	pb "example.com/pondwright/proto/pondwright/v1"
)

// workings are the steps, with formula, numbers and source. What several parts worked out alike is shown once, and of a calculation that
// goes round more often than twice, such as the months of a year, two rounds are shown.
func (l *leaf) workings() (part, error) {
	p := part{ID: "workings", Title: "Appendix: the workings", Apart: true}
	w := &appendix{cited: map[string]int{}, shown: map[string]bool{}, rounds: map[string]int{}}
	for _, group := range grouped(l.plan.GetWorkings()) {
		w.group(group)
	}
	if len(w.blocks) == 0 {
		return p, nil
	}
	p.Blocks = text("Numbers are in SI units, temperatures in degrees Celsius. Each step evaluated again from what is put in gives what comes out. " +
		"The number in brackets is that of the source, in the list at the end.")
	p.Blocks = append(p.Blocks, w.blocks...)
	if len(w.left) > 0 {
		p.Blocks = append(p.Blocks, block{Heading: "Worked out in the same way", Text: strings.Join(w.left, "; ") + ". Their numbers are in the JSON of the plan."})
	}
	p.Blocks = append(p.Blocks, block{Heading: "Sources of the workings", Steps: w.sources})
	return p, nil
}

// grouped are the steps by what they are about, in the order they were taken.
func grouped(steps []*pb.WorkingStep) [][]*pb.WorkingStep {
	var groups [][]*pb.WorkingStep
	for i, s := range steps {
		if i == 0 || s.GetSubject() != steps[i-1].GetSubject() {
			groups = append(groups, nil)
		}
		groups[len(groups)-1] = append(groups[len(groups)-1], s)
	}
	return groups
}

type appendix struct {
	blocks  []block
	sources []string
	cited   map[string]int  // number of a source
	shown   map[string]bool // steps that are on the page
	rounds  map[string]int  // how often the same formulas went round for one part
	left    []string        // subjects that are not on the page
}

func (w *appendix) group(steps []*pb.WorkingStep) {
	subject := steps[0].GetSubject()
	about, _, _ := strings.Cut(subject, ":")
	round := about
	for _, s := range steps {
		round += "\x00" + s.GetFormulaId()
	}
	if w.rounds[round]++; w.rounds[round] > 2 {
		w.left = append(w.left, subject)
		return
	}
	caption := capital(subject)
	if caption == "" {
		caption = "The job"
	}
	t := columns(caption, "Step and formula", "Put in", "Comes out")
	for _, s := range steps {
		in, out := values(s.GetInputs()), values(s.GetResults())
		key := s.GetFormulaId() + "\x00" + in + "\x00" + out
		if w.shown[key] {
			continue
		}
		w.shown[key] = true
		if s.GetOutsideRange() != "" {
			out += " (outside the range the source claims: " + s.GetOutsideRange() + ")"
		}
		t.row(fmt.Sprintf("%s [%d]: %s", s.GetName(), w.cite(s.GetSource()), s.GetEquation()), in, out)
	}
	for _, b := range t.block("") {
		b.Table.Small = true
		w.blocks = append(w.blocks, b)
	}
}

// cite gives the number of a source.
func (w *appendix) cite(src *pb.Source) int {
	words := sourceText(src)
	if n, ok := w.cited[words]; ok {
		return n
	}
	w.sources = append(w.sources, words)
	w.cited[words] = len(w.sources)
	return len(w.sources)
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
