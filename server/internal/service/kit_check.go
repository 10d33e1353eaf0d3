package service

import (
	"context"
	"fmt"
	"strings"

	"example.com/pondwright/calc/finding"
	"example.com/pondwright/calc/kit"
	"example.com/pondwright/calc/source"
	pb "example.com/pondwright/proto/pondwright/v1"
	"example.com/pondwright/server/internal/wire"
)

func (s kits) CheckKit(ctx context.Context, req *pb.CheckKitRequest) (*pb.CheckKitResponse, error) {
	snapshot := s.engine.Store.Snapshot()
	c, err := newCounter(snapshot, req, orEmpty(req.GetSet()), req.GetWorkings())
	if err != nil {
		return nil, err
	}
	c.pictures = req.GetPictures()
	candidate, err := c.desk.Judge(c.set.Set, c.set.pumps, c.set.fall)
	if err != nil {
		return nil, err
	}
	resp := &pb.CheckKitResponse{Pond: c.plan.Pond.Measures, Wanted: wire.WantedFlow(c.plan.Question.Wanted), Brief: c.brief}
	resp.FishNow, resp.FishGrown = c.fish()
	made, detail, err := c.kit(candidate, "kit")
	if err != nil {
		return nil, err
	}
	resp.Kit, resp.Verdicts = made, wire.Verdicts(detail, made.GetStates())
	resp.Workings = wire.Workings(c.trail)
	var found []finding.Finding
	if !candidate.Works() {
		c.trail = nil
		if resp.SmallestChange, err = c.mend(ctx, candidate); err != nil {
			return nil, searched(ctx, err)
		}
		if resp.SmallestChange == nil {
			found = append(found, finding.Finding{
				Code: "NOTHING_MENDS", Severity: finding.Stop, Subject: "kit", Source: source.Definition,
				Sentence: "Whatever items of the set are changed for others of the catalogues, of the same number of pumps, none works.",
				Change:   "ask SuggestKits what comes nearest and what stops it",
			})
		}
	}
	resp.Findings = c.findings(found...)
	resp.Provenance, err = s.engine.provenance(req, snapshot)
	return resp, err
}

func orEmpty(set *pb.ChosenSet) *pb.ChosenSet {
	if set == nil {
		return &pb.ChosenSet{}
	}
	return set
}

// mend looks for the smallest change after which a candidate works; nil where there is none.
func (c *counter) mend(ctx context.Context, candidate kit.Candidate) (*pb.Mend, error) {
	m, err := c.desk.Mend(candidate, stopper(ctx))
	if err != nil || m == nil {
		return nil, err
	}
	mended, _, err := c.kit(m.Candidate, "mended")
	if err != nil {
		return nil, err
	}
	made := &pb.Mend{Price: m.Price, Kit: mended}
	var words []string
	change := func(from, to kit.Set, kinds []kit.Kind, of string) {
		for _, k := range kinds {
			before, after := c.stall.at(k, from.Of(k)), c.stall.at(k, to.Of(k))
			made.Changes = append(made.Changes, &pb.ItemChange{Kind: wire.ItemKind(k), From: before, To: after})
			verb := "change the " + k.String() + of + " for "
			if before == nil {
				verb = "add the " + k.String() + of + " "
			}
			words = append(words, verb+after.GetItem().GetItemNumber()+" ("+after.GetItem().GetDescription()+")")
		}
	}
	if m.Fall == nil {
		change(candidate.Set, m.Set, m.Changed, "")
	} else {
		change(candidate.Set, m.Set, m.Changed, " of the filter's way")
		change(candidate.Fall.Set, m.Fall.Set, m.ChangedFall, " of the fall")
	}
	text := strings.Join(words, ", and ")
	made.Sentence = fmt.Sprintf("%s%s: that costs %s %.2f to buy, and the set works.", strings.ToUpper(text[:1]), text[1:], c.stall.currency, m.Price)
	return made, nil
}
