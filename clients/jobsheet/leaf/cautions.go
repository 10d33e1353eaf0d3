package leaf

import pb "example.com/pondwright/proto/pondwright/v1"

// standing is what every page of this kind says, whatever the job.
var standing = []string{
	"Estimate from the inputs shown; measure on site before buying or digging.",
	"Local codes and the maker's instructions come first. Electrical, structural and gas work is for licensed people.",
	"Any depth of water can drown a child. Supervise, cover rigidly or fence.",
	"Rules differ by country, state and water company. Numbers may be out of date.",
	"Dose by label on measured volume; for sick fish see a vet.",
	"Not a design for dams, retaining walls over 1 m, roofs or swimming.",
}

// cautions are what can hurt somebody or break a rule: before anything else.
func (l *leaf) cautions() (part, error) {
	return part{ID: "cautions", Title: "Before anybody digs", Blocks: []block{
		{List: standing},
		{Heading: "On this job", Findings: findings(pb.Severity_SEVERITY_NOTE, l.plan.GetCautions())},
	}}, nil
}
