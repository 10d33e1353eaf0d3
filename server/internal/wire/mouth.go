package wire

import (
	"fmt"
	"slices"
	"strings"

	"example.com/pondwright/calc/finding"
	"example.com/pondwright/calc/pipe"
	"example.com/pondwright/calc/source"
	pb "example.com/pondwright/proto/pondwright/v1"
)

// Water loses head where it enters the first hose of an intake or of a pipe from a box, and where it leaves the last of a
// delivery, whether or not a person thinks of saying so.

var entries = []pipe.Kind{pipe.Entry, pipe.ProjectingEntry, pipe.RoundedEntry, pipe.FootValve, pipe.PoppetFootValve}

// enters adds a sharp-edged entry to the first hose of a row of parts, unless its fittings say how water enters.
func (r *treeReader) enters(branch string, parts []*pb.CircuitPart) {
	for _, p := range parts {
		if h := p.GetHose(); h != nil {
			if !saysKind(h, entries...) {
				r.mouths[h] = append(r.mouths[h], pipe.Fitted{Kind: pipe.Entry, Count: 1})
				r.assumed = append(r.assumed, p.GetName())
			}
			return
		}
	}
	r.noHose(branch, parts)
}

// leaves adds an exit to the last hose of a row of parts, unless its fittings have one.
func (r *treeReader) leaves(branch string, parts []*pb.CircuitPart) {
	for _, p := range slices.Backward(parts) {
		if h := p.GetHose(); h != nil {
			if !saysKind(h, pipe.Exit) {
				r.mouths[h] = append(r.mouths[h], pipe.Fitted{Kind: pipe.Exit, Count: 1})
			}
			return
		}
	}
	r.noHose(branch, parts)
}

// noHose notes a branch with parts none of which has a bore to tell the loss at its mouth by.
func (r *treeReader) noHose(branch string, parts []*pb.CircuitPart) {
	if len(parts) > 0 {
		r.uncounted = append(r.uncounted, branch)
	}
}

// saysKind says whether one of some kinds is among the fittings of a hose. Fittings that cannot be read are refused elsewhere.
func saysKind(h *pb.HoseRun, kinds ...pipe.Kind) bool {
	fittings, _ := Fittings(h.GetFittings(), h.GetFittingsInWords())
	return slices.ContainsFunc(fittings, func(f pipe.Fitted) bool { return slices.Contains(kinds, f.Kind) })
}

// findings say what was assumed of the circuit read.
func (r *treeReader) findings() []finding.Finding {
	var found []finding.Finding
	if len(r.assumed) > 0 {
		found = append(found, finding.Finding{
			Code: "ASSUMED", Severity: finding.Note, Subject: r.assumed[0],
			Sentence: fmt.Sprintf("How water enters %s was not given; a flush, sharp-edged mouth is assumed.", strings.Join(r.assumed, ", ")),
			Value:    finding.Of(0.5, ""), Source: source.Choice,
			Change: `say it among the fittings, as "1 rounded entry", "1 projecting entry" or "1 foot valve"`,
		})
	}
	if len(r.uncounted) > 0 {
		found = append(found, finding.Finding{
			Code: "MOUTH_NOT_COUNTED", Severity: finding.Note, Subject: r.uncounted[0],
			Sentence: fmt.Sprintf("What water loses at the mouth of %s is not counted: no hose of it has a bore to tell it by.", strings.Join(r.uncounted, ", ")),
			Change:   "give the hose that ends there", Source: source.Choice,
		})
	}
	return found
}
