package service

import (
	"fmt"
	"time"

	"example.com/pondwright/calc/electric"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/work"
	pb "example.com/pondwright/proto/pondwright/v1"
	"example.com/pondwright/server/internal/climates"
	"example.com/pondwright/server/internal/wire"
)

func chosenBy(c *pb.KitChoice) func(*pb.CataloguedItem) bool { return wire.KitChosen(c) }

// check looks for everything that keeps the job from being planned, whatever part is asked for: what one RPC finds does not keep the
// others from being asked.
func (p *jobPlan) check() error {
	_, err := wire.PlanBrief(nil, p.job.GetBrief())
	if err := p.faults.add(err, placing{"": "brief"}.at); err != nil {
		return err
	}
	if err := p.faults.add(wire.KitKnown(p.job.GetKit(), p.known.Items), placing{"": "kit"}.at); err != nil {
		return err
	}
	_, _, err = wire.StartDay(p.job.GetWork())
	if err := p.faults.add(err, placing{"": "work"}.at); err != nil {
		return err
	}
	if err := p.checkExtra(); err != nil {
		return err
	}
	var notes wire.Notes
	supply, _ := notes.Supply(p.job.GetElectrics(), nil)
	_, err = electric.Assess(nil, supply)
	if err := p.faults.add(err, placing{"": "electrics", "loads": "electrics.others"}.at); err != nil {
		return err
	}
	if err := p.checkClimate(); err != nil {
		return err
	}
	if err := p.checkFall(); err != nil {
		return err
	}
	if p.pondIsSound() {
		if err := p.need(pb.PlanPart_PLAN_PART_WATER, pb.PlanPart_PLAN_PART_QUANTITIES); err != nil {
			return err
		}
	}
	return p.faults.err()
}

// checkClimate looks whether the weather of the site can be followed.
func (p *jobPlan) checkClimate() error {
	site := p.job.GetClimate().GetSite()
	if site == nil {
		return nil
	}
	built, err := climates.Read()
	if err != nil {
		return fmt.Errorf("built-in climates: %w", err)
	}
	_, err = wire.ReadClimate(site, built, time.Date(p.firstYear(), time.January, 1, 0, 0, 0, 0, time.UTC))
	return p.faults.add(err, placing{"": "climate.site"}.at)
}

// checkFall looks whether sills and stream can be calculated, at a flow that any takes.
func (p *jobPlan) checkFall() error {
	const trickle = 1000 // L/h
	f := falls{engine: p.engine}
	if steps := p.job.GetFallBuild().GetSteps(); len(steps) > 0 {
		_, err := f.CalculateCascade(p.ctx, &pb.CalculateCascadeRequest{FlowLPerH: trickle, Steps: steps})
		if err := p.faults.add(err, placing{"": "fall_build"}.at); err != nil {
			return err
		}
	}
	if reaches := p.job.GetFallBuild().GetReaches(); len(reaches) > 0 {
		_, err := f.CalculateStream(p.ctx, &pb.CalculateStreamRequest{FlowLPerH: trickle, Reaches: reaches})
		return p.faults.add(err, placing{"": "fall_build"}.at)
	}
	return nil
}

// pondIsSound reports whether the pond itself can be measured, so that what rests on it can be looked at.
func (p *jobPlan) pondIsSound() bool {
	_, err := wire.MeasurePondUntil(stopper(p.ctx), nil, p.job.GetBrief().GetPond())
	return err == nil
}

// checkExtra looks whether the tasks of the landscaper's own come after one that there is.
func (p *jobPlan) checkExtra() error {
	_, err := wire.ExtraTasks(p.job.GetWork(), p.hasTask)
	return p.faults.add(err, placing{"": "work"}.at)
}

// hasTask reports whether there is such a task on this job, whatever its quantities are.
func (p *jobPlan) hasTask(id string) bool {
	j := p.sketch()
	for _, t := range work.Tasks(nil, j) {
		if t.ID == id {
			return true
		}
	}
	return false
}

// sketch is the job with every quantity that it has put at one.
func (p *jobPlan) sketch() work.Job {
	fish := len(p.job.GetBrief().GetStock().GetGroups()) > 0
	j := work.Job{
		Turf: 1, Dug: 1, Digger: work.ByHand, Spoil: p.carted(), Covered: 1, Sills: p.sills(),
		Circuit: true, Mains: true, Chlorine: !p.job.GetSupply().GetIsRainOrWell(), Plants: true, StockingSteps: 0,
	}
	if p.job.GetEdging() != nil {
		j.Edge = 1
	}
	if len(p.job.GetBeds()) > 0 || p.job.GetFallBuild().GetStone() != nil {
		j.Stone = 1
	}
	if p.job.GetElectrics().GetCableM() > 0 {
		j.Cable = unit.Metres(1)
	}
	if s := p.job.GetSite(); s != nil && s.TurfM != nil && s.GetTurfM() == 0 {
		j.Turf = 0
	}
	if fish {
		j.StockingSteps = stockingSteps(p.job.GetBrief())
	}
	return j
}

// sills are how many the fall has; none where there is no fall.
func (p *jobPlan) sills() int {
	if p.job.GetBrief().GetFall() == nil {
		return 0
	}
	return max(1, len(p.job.GetFallBuild().GetSteps()))
}

// carted reports whether some of the spoil leaves the garden.
func (p *jobPlan) carted() bool {
	m := p.job.GetSite().GetMound()
	return m == nil || m.SharePercent != nil && m.GetSharePercent() < 100 || p.job.GetSite().GetCartTopsoil()
}
