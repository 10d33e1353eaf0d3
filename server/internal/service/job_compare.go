package service

import (
	"context"
	"fmt"
	"strings"

	"google.golang.org/protobuf/proto"

	"example.com/pondwright/calc/finding"
	"example.com/pondwright/calc/source"
	pb "example.com/pondwright/proto/pondwright/v1"
	"example.com/pondwright/server/internal/wire"
)

func (s jobs) ComparePlans(ctx context.Context, req *pb.ComparePlansRequest) (*pb.ComparePlansResponse, error) {
	snapshot := s.engine.Store.Snapshot()
	other, path := req.GetJob(), "job"
	if kit := req.GetKit(); kit != nil {
		other, path = proto.Clone(req.GetBefore()).(*pb.JobBrief), ""
		other.Kit = kit
	}
	var faults jobFaults
	before, err := s.plan(ctx, snapshot, &pb.PlanJobRequest{Job: req.GetBefore(), Parts: req.GetParts()}, "before")
	if err := faults.add(err, placing{}.at); err != nil {
		return nil, err
	}
	after, err := s.plan(ctx, snapshot, &pb.PlanJobRequest{Job: other, Parts: req.GetParts()}, path)
	if err := faults.add(err, placing{}.at); err != nil {
		return nil, err
	}
	if err := faults.err(); err != nil {
		return nil, refused(err, "")
	}
	differences, same := compareFigures(before.GetFigures(), after.GetFigures())
	resp := &pb.ComparePlansResponse{
		Differences: differences, SameCount: same, FindingDifferences: findingDifferences(before, after),
	}
	if len(differences) == 0 {
		resp.Findings = wire.Findings([]finding.Finding{{
			Code: "NOTHING_CHANGES", Severity: finding.Note, Subject: "plan", Sentence: "No figure of the plan is another.", Source: source.Definition,
		}})
	}
	resp.Provenance, err = s.engine.provenance(req, snapshot)
	return resp, err
}

// compareFigures lists what is not the same, in the order of the first list and then of what the second has besides.
func compareFigures(before, after []*pb.PlanFigure) (differences []*pb.PlanDifference, same int32) {
	rest := map[string]*pb.PlanFigure{}
	for _, f := range after {
		rest[f.GetFigure()] = f
	}
	for _, b := range before {
		a := rest[b.GetFigure()]
		delete(rest, b.GetFigure())
		if sameFigure(b, a) {
			same++
			continue
		}
		differences = append(differences, difference(b, a))
	}
	for _, a := range after {
		if _, alone := rest[a.GetFigure()]; alone {
			differences = append(differences, difference(nil, a))
		}
	}
	return differences, same
}

func sameFigure(a, b *pb.PlanFigure) bool {
	return b != nil && a.GetUnit() == b.GetUnit() && a.GetNumber() == b.GetNumber() && a.GetWord() == b.GetWord()
}

// difference sets two figures side by side, of which one may not be there.
func difference(before, after *pb.PlanFigure) *pb.PlanDifference {
	is := after
	if is == nil {
		is = before
	}
	d := &pb.PlanDifference{
		Figure: is.GetFigure(), Name: is.GetName(), Unit: is.GetUnit(), Why: is.GetWhy(), WordBefore: before.GetWord(), WordAfter: after.GetWord(),
		Before: numberOf(before), After: numberOf(after),
	}
	if d.Before != nil && d.After != nil && *d.Before != 0 && before.GetUnit() == after.GetUnit() {
		d.ChangePercent = new(100 * (*d.After - *d.Before) / *d.Before)
	}
	return d
}

func numberOf(f *pb.PlanFigure) *float64 {
	if n, ok := f.GetIs().(*pb.PlanFigure_Number); ok {
		return &n.Number
	}
	return nil
}

// findingDifferences are the cautions and stops that only one of two plans has; of notes there are too many.
func findingDifferences(before, after *pb.PlanJobResponse) []*pb.FindingDifference {
	var made []*pb.FindingDifference
	was, is := gravest(before), gravest(after)
	only := func(these, those []*pb.Finding, isNew bool) {
		known := map[string]bool{}
		for _, f := range those {
			known[f.GetCode()+"\x00"+f.GetSubject()] = true
		}
		for _, f := range these {
			if key := f.GetCode() + "\x00" + f.GetSubject(); !known[key] {
				known[key] = true
				made = append(made, &pb.FindingDifference{IsNew: isNew, Finding: f})
			}
		}
	}
	only(was, is, false)
	only(is, was, true)
	return made
}

// gravest are the cautions and stops of a plan, wherever they stand in it.
func gravest(r *pb.PlanJobResponse) []*pb.Finding {
	var found []*pb.Finding
	for _, f := range findingsIn(r.ProtoReflect()) {
		if f.GetSeverity() > pb.Severity_SEVERITY_NOTE {
			found = append(found, f)
		}
	}
	return found
}

func (s jobs) RecheckPlan(ctx context.Context, req *pb.RecheckPlanRequest) (*pb.RecheckPlanResponse, error) {
	snapshot := s.engine.Store.Snapshot()
	plan, err := s.plan(ctx, snapshot, req.GetAsked(), "asked.job")
	if err != nil {
		return nil, err
	}
	former := req.GetFormer()
	resp := &pb.RecheckPlanResponse{
		Plan: plan, SameQuestion: former.GetRequestDigest() == plan.GetProvenance().GetRequestDigest(),
		SameAnswer:     former.GetAnswerDigest() == plan.GetAnswerDigest(),
		OtherMethodSet: former.GetMethodSet() != plan.GetProvenance().GetMethodSet(), CatalogueDifferences: catalogueDifferences(former, plan.GetProvenance()),
	}
	resp.Differences, resp.SameCount = compareFigures(former.GetFigures(), plan.GetFigures())
	resp.Findings = wire.Findings(recheckFindings(req, resp))
	resp.Provenance, err = s.engine.provenance(req, snapshot)
	return resp, err
}

func catalogueDifferences(former *pb.FormerPlan, now *pb.Provenance) []*pb.CatalogueDifference {
	var made []*pb.CatalogueDifference
	revision := map[string]string{}
	for _, c := range now.GetCatalogues() {
		revision[c.GetCatalogue()] = c.GetRevision()
	}
	for _, c := range former.GetCatalogues() {
		if is := revision[c.GetCatalogue()]; is != c.GetRevision() {
			made = append(made, &pb.CatalogueDifference{Catalogue: c.GetCatalogue(), RevisionBefore: c.GetRevision(), RevisionAfter: is})
		}
		delete(revision, c.GetCatalogue())
	}
	for _, c := range now.GetCatalogues() {
		if is, isNew := revision[c.GetCatalogue()]; isNew {
			made = append(made, &pb.CatalogueDifference{Catalogue: c.GetCatalogue(), RevisionAfter: is})
		}
	}
	return made
}

// recheckFindings say in words what the comparison comes to.
func recheckFindings(req *pb.RecheckPlanRequest, resp *pb.RecheckPlanResponse) []finding.Finding {
	var found []finding.Finding
	former, now := req.GetFormer(), resp.GetPlan().GetProvenance()
	add := func(code string, severity finding.Severity, sentence, change string) {
		found = append(found, finding.Finding{Code: code, Severity: severity, Subject: "plan", Sentence: sentence, Change: change, Source: source.Definition})
	}
	if former.GetRequestDigest() != "" && !resp.GetSameQuestion() {
		add("OTHER_QUESTION", finding.Caution, "The question is not the one that was answered then: something in the brief was changed since.", "send the question as it was kept, to see what time alone has changed")
	}
	if resp.GetOtherMethodSet() {
		add("OTHER_METHODS", finding.Note, fmt.Sprintf("The plan was made by method set %s; today's is %s.", orUnknown(former.GetMethodSet()), now.GetMethodSet()), "see the differences; the newer answer is the better founded")
	}
	if former.GetEngineVersion() != now.GetEngineVersion() {
		add("OTHER_ENGINE", finding.Note, fmt.Sprintf("The plan was made by engine %s; this is %s.", orUnknown(former.GetEngineVersion()), now.GetEngineVersion()), "")
	}
	var changed []string
	for _, c := range resp.GetCatalogueDifferences() {
		changed = append(changed, c.GetCatalogue())
	}
	if len(changed) > 0 {
		add("OTHER_CATALOGUES", finding.Note, "These catalogues are not as they were: "+strings.Join(changed, ", ")+". Items, curves and prices can be others.", "name the kit that was built in kit, to hold it fast")
	}
	switch {
	case resp.GetSameAnswer():
		add("SAME_ANSWER", finding.Note, "The answer is the same to the last bit.", "")
	case len(resp.GetDifferences()) == 0:
		add("SAME_FIGURES", finding.Note, "No figure is another; something else in the answer is, such as a finding or its words.", "")
	default:
		add("OTHER_FIGURES", finding.Caution, fmt.Sprintf("%d figures are others than then.", len(resp.GetDifferences())), "see the differences")
	}
	return found
}

func orUnknown(text string) string {
	if text == "" {
		return "unknown"
	}
	return text
}
