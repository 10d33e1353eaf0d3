package service

import (
	"context"
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"slices"

	"google.golang.org/protobuf/proto"

	pb "example.com/pondwright/proto/pondwright/v1"
	"example.com/pondwright/server/internal/catalogue"
)

type jobs struct {
	pb.UnimplementedJobServiceServer
	engine *Engine
}

func (s jobs) PlanJob(ctx context.Context, req *pb.PlanJobRequest) (*pb.PlanJobResponse, error) {
	return s.plan(ctx, s.engine.Store.Snapshot(), req, "job")
}

// plan makes a plan with the catalogues as a snapshot has them. Faults are named from under on.
func (s jobs) plan(ctx context.Context, snapshot *catalogue.Snapshot, req *pb.PlanJobRequest, under string) (*pb.PlanJobResponse, error) {
	p := newJobPlan(ctx, s.engine, snapshot, req)
	if err := p.run(); err != nil {
		return nil, stopped(ctx, refused(err, under))
	}
	resp := p.answer()
	var err error
	if resp.Provenance, err = s.engine.provenance(req, snapshot); err != nil {
		return nil, err
	}
	resp.AnswerDigest, err = digest(resp)
	return resp, err
}

// digest is the SHA-256 of a message in protobuf's deterministic encoding.
func digest(m proto.Message) (string, error) {
	bytes, err := proto.MarshalOptions{Deterministic: true}.Marshal(m)
	if err != nil {
		return "", fmt.Errorf("digest: %w", err)
	}
	sum := sha256.Sum256(bytes)
	return hex.EncodeToString(sum[:]), nil
}

// A jobPlan is a plan in the making. Each part is worked out once, when it or another that rests on it is asked for.
type jobPlan struct {
	ctx    context.Context
	engine *Engine // with the catalogues frozen, and narrowed to the kit chosen
	known  *catalogue.Snapshot
	req    *pb.PlanJobRequest
	job    *pb.JobBrief
	steps  []*pb.WorkingStep
	faults jobFaults
	done   map[pb.PlanPart]bool
	made   pb.PlanJobResponse // every part that was worked out, asked for or not
	notes  jobNotes
}

func newJobPlan(ctx context.Context, e *Engine, snapshot *catalogue.Snapshot, req *pb.PlanJobRequest) *jobPlan {
	return &jobPlan{
		ctx: ctx, known: snapshot, req: req, job: req.GetJob(), done: map[pb.PlanPart]bool{},
		engine: &Engine{Version: e.Version, Store: catalogue.Frozen(snapshot.Narrowed(chosenBy(req.GetJob().GetKit())))},
	}
}

// A jobPart works one part of a plan out.
type jobPart struct {
	part pb.PlanPart
	name string
	run  func(*jobPlan) error
}

// jobParts are the parts in the order they are told.
func jobParts() []jobPart {
	return []jobPart{
		{pb.PlanPart_PLAN_PART_WATER, "water", (*jobPlan).water},
		{pb.PlanPart_PLAN_PART_QUANTITIES, "quantities", (*jobPlan).quantities},
		{pb.PlanPart_PLAN_PART_KIT, "kit", (*jobPlan).kit},
		{pb.PlanPart_PLAN_PART_STATES, "states", (*jobPlan).states},
		{pb.PlanPart_PLAN_PART_FILTRATION, "filtration", (*jobPlan).filtration},
		{pb.PlanPart_PLAN_PART_LIGHT, "light", (*jobPlan).light},
		{pb.PlanPart_PLAN_PART_YEAR, "year", (*jobPlan).year},
		{pb.PlanPart_PLAN_PART_FILL, "fill", (*jobPlan).fill},
		{pb.PlanPart_PLAN_PART_WORK, "work", (*jobPlan).work},
		{pb.PlanPart_PLAN_PART_COSTS, "costs", (*jobPlan).costs},
		{pb.PlanPart_PLAN_PART_ELECTRICS, "electrics", (*jobPlan).electrics},
		{pb.PlanPart_PLAN_PART_HANDOVER, "hand-over", (*jobPlan).handover},
		{pb.PlanPart_PLAN_PART_CALENDAR, "calendar", (*jobPlan).calendar},
		{pb.PlanPart_PLAN_PART_CAUTIONS, "cautions", (*jobPlan).cautions},
	}
}

func (p *jobPlan) wants(part pb.PlanPart) bool {
	return len(p.req.GetParts()) == 0 || slices.Contains(p.req.GetParts(), part)
}

// run checks the whole brief, so that every fault is told at once, and then works out what is asked for.
func (p *jobPlan) run() error {
	if err := p.check(); err != nil {
		return err
	}
	for _, part := range jobParts() {
		if !p.wants(part.part) {
			continue
		}
		if err := p.need(part.part); err != nil {
			return err
		}
	}
	return p.faults.err()
}

// need works out parts that another rests on, unless they are there already.
func (p *jobPlan) need(parts ...pb.PlanPart) error {
	for _, part := range jobParts() {
		if !slices.Contains(parts, part.part) || p.done[part.part] {
			continue
		}
		if err := gone(p.ctx); err != nil {
			return err
		}
		p.done[part.part] = true
		if err := part.run(p); err != nil {
			return fmt.Errorf("%s: %w", part.name, err)
		}
	}
	return nil
}

// answer is what was asked for of what was worked out.
func (p *jobPlan) answer() *pb.PlanJobResponse {
	m := &p.made
	resp := &pb.PlanJobResponse{Asked: p.req, Workings: p.steps}
	only(p, pb.PlanPart_PLAN_PART_WATER, &resp.Water, m.Water)
	only(p, pb.PlanPart_PLAN_PART_QUANTITIES, &resp.Quantities, m.Quantities)
	only(p, pb.PlanPart_PLAN_PART_KIT, &resp.Kit, m.Kit)
	only(p, pb.PlanPart_PLAN_PART_STATES, &resp.States, m.States)
	only(p, pb.PlanPart_PLAN_PART_FILTRATION, &resp.Filtration, m.Filtration)
	only(p, pb.PlanPart_PLAN_PART_LIGHT, &resp.Light, m.Light)
	only(p, pb.PlanPart_PLAN_PART_YEAR, &resp.Year, m.Year)
	only(p, pb.PlanPart_PLAN_PART_FILL, &resp.Fill, m.Fill)
	only(p, pb.PlanPart_PLAN_PART_COSTS, &resp.Costs, m.Costs)
	only(p, pb.PlanPart_PLAN_PART_WORK, &resp.Work, m.Work)
	only(p, pb.PlanPart_PLAN_PART_ELECTRICS, &resp.Electrics, m.Electrics)
	only(p, pb.PlanPart_PLAN_PART_HANDOVER, &resp.Handover, m.Handover)
	only(p, pb.PlanPart_PLAN_PART_CALENDAR, &resp.Calendar, m.Calendar)
	if p.wants(pb.PlanPart_PLAN_PART_CAUTIONS) {
		resp.Cautions = m.Cautions
	}
	resp.Findings = p.notes.messages()
	resp.Figures = planFigures(resp)
	return resp
}

// only sets a part that was asked for.
func only[T any](p *jobPlan, part pb.PlanPart, to **T, made *T) {
	if p.wants(part) {
		*to = made
	}
}
