package leaf

import (
	"google.golang.org/protobuf/proto"

	"example.com/pondwright/clients/internal/page"
	"example.com/pondwright/clients/jobsheet/sheet"
	pb "example.com/pondwright/proto/pondwright/v1"
)

// VisitPage writes what was measured against the design, and what to do.
func VisitPage(asked *pb.AssessVisitRequest, found *pb.AssessVisitResponse) ([]byte, error) {
	r := proto.CloneOf(found)
	cleanWords(r.ProtoReflect())
	var rows []pair
	for _, row := range sheet.VisitRows(r) {
		rows = append(rows, pair{row[0], row[1]})
	}
	parts := []part{{ID: "measured", Title: "What was measured, against the design", Blocks: []block{{Rows: rows}}}}
	var means []finding
	for _, f := range r.GetFindings() { // likeliest cause first, and so not sorted
		means = append(means, findings(pb.Severity_SEVERITY_UNSPECIFIED, []*pb.Finding{f})...)
	}
	if len(means) > 0 {
		parts = append(parts, part{ID: "means", Title: "What it means, likeliest cause first", Blocks: []block{{Findings: means}}})
	}
	if len(r.GetNextSteps()) > 0 {
		parts = append(parts, part{ID: "next", Title: "What to do, in order", Blocks: []block{{Steps: r.GetNextSteps()}}})
	}
	l := &leaf{plan: &pb.PlanJobResponse{Workings: r.GetWorkings(), Provenance: r.GetProvenance()}}
	for _, make := range []maker{(*leaf).basis, (*leaf).workings} {
		p, err := make(l)
		if err != nil {
			return nil, err
		}
		if len(p.Blocks) > 0 {
			parts = append(parts, p)
		}
	}
	title := page.Clean(asked.GetJob().GetBrief().GetTitle())
	if title == "" {
		title = "A pond without a name"
	}
	return render(title, "Service visit", parts)
}
