package service

import (
	"context"
	"fmt"

	"example.com/pondwright/calc/dig"
	"example.com/pondwright/calc/finding"
	"example.com/pondwright/calc/input"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/working"
	pb "example.com/pondwright/proto/pondwright/v1"
	"example.com/pondwright/server/internal/wire"
)

func (s volume) PlanDig(ctx context.Context, req *pb.PlanDigRequest) (*pb.PlanDigResponse, error) {
	t := trail(req.GetWorkings())
	pond, err := wire.MeasurePondUntil(stopper(ctx), nil, req.GetPond())
	if err != nil {
		return nil, stopped(ctx, refused(err, "pond"))
	}
	d := digPlan{trail: t, pond: pond, ground: wire.Ground(req), req: req, resp: &pb.PlanDigResponse{}}
	d.notes.Add(pond.Findings...)
	d.holes()
	if len(d.errs) == 0 {
		d.spoil()
	}
	if err := d.errs.Err(); err != nil {
		return nil, refused(err, "")
	}
	d.resp.Findings, d.resp.Workings = wire.Findings(d.notes.Findings), wire.Workings(t)
	d.resp.Provenance, err = s.engine.provenance(req, nil)
	return d.resp, err
}

// A digPlan is a dig on its way to an answer.
type digPlan struct {
	trail  *working.Trail
	pond   wire.Pond
	ground dig.Soil
	dug    dig.Dug
	notes  wire.Notes
	errs   input.Errors
	req    *pb.PlanDigRequest
	resp   *pb.PlanDigResponse
}

// holes adds up the holes of all bays, and keeps the caution of the deepest.
func (d *digPlan) holes() {
	freeboard := d.notes.Freeboard(d.req.FreeboardM)
	var caution []finding.Finding
	for i, bay := range d.pond.Bays {
		d.trail.About(d.pond.Names[i])
		one, err := dig.Measure(d.trail, dig.Hole{
			Bay: bay, Freeboard: freeboard, Bed: unit.Metres(d.req.GetBedM()),
			Turf: unit.Metres(d.req.GetTurfM()), Topsoil: unit.Metres(d.req.GetTopsoilM()),
		})
		if err != nil {
			d.errs.AddUnder("", err)
			return
		}
		if one.Depth > d.dug.Depth {
			d.dug.Depth, caution = one.Depth, one.Findings
		}
		d.dug.Total, d.dug.TurfArea = d.dug.Total+one.Total, d.dug.TurfArea+one.TurfArea
		d.dug.Turf, d.dug.Topsoil, d.dug.Subsoil = d.dug.Turf+one.Turf, d.dug.Topsoil+one.Topsoil, d.dug.Subsoil+one.Subsoil
	}
	d.notes.Add(caution...)
	d.resp.TotalM3, d.resp.DepthM, d.resp.TurfM2 = d.dug.Total.CubicMetres(), d.dug.Depth.Metres(), d.dug.TurfArea.SquareMetres()
}

// spoil swells what was dug, heaps what stays and counts the loads of what goes.
func (d *digPlan) spoil() {
	d.notes.Add(d.dug.Storing(d.ground)...)
	d.trail.About("turf")
	turf := dig.Topsoil.Of(d.trail, d.dug.Turf)
	d.trail.About("topsoil")
	topsoil := dig.Topsoil.Of(d.trail, d.dug.Topsoil)
	d.trail.About("subsoil")
	subsoil := d.ground.Of(d.trail, d.dug.Subsoil)
	d.resp.Turf, d.resp.Topsoil, d.resp.Subsoil = wire.Spoil(turf), wire.Spoil(topsoil), wire.Spoil(subsoil)

	kept := d.mound(subsoil.Loose)
	goes := 1 - kept
	loose, mass := share(subsoil.Loose, goes), unit.Mass(goes)*subsoil.Mass
	if d.req.GetCartTopsoil() {
		loose, mass = loose+turf.Loose+topsoil.Loose, mass+turf.Mass+topsoil.Mass
	}
	d.resp.CartedLooseM3, d.resp.CartedMassKg = loose.CubicMetres(), mass.Kilograms()
	for i, v := range d.req.GetVehicles() {
		d.trail.About(v.GetName())
		n, err := dig.Cart(d.trail, loose, mass, dig.Vehicle{Capacity: unit.CubicMetres(v.GetCapacityM3()), Payload: unit.Kilograms(v.GetPayloadKg())})
		d.errs.AddUnder(fmt.Sprintf("vehicles[%d]", i), err)
		d.resp.Loads = append(d.resp.Loads, &pb.PlanDigResponse_Loads{Vehicle: v.GetName(), Loads: int32(n)})
	}
}

// mound heaps the share of the subsoil that stays, and says which share that is.
func (d *digPlan) mound(loose unit.Volume) (kept unit.Ratio) {
	want := d.req.GetMound()
	if want == nil || loose == 0 {
		return 0
	}
	d.trail.About("mound")
	kept, slope := d.notes.Mound(want)
	m, err := dig.Heap(d.trail, share(loose, kept), slope, unit.Metres(want.GetHeightM()))
	if err != nil {
		d.errs.AddUnder("mound", err)
		return kept
	}
	d.notes.Add(m.Findings...)
	d.resp.Mound = &pb.PlanDigResponse_Mound{
		DiameterM: 2 * m.Foot.Metres(), TopDiameterM: 2 * m.Top.Metres(), HeightM: m.Height.Metres(), LooseM3: share(loose, kept).CubicMetres(),
	}
	return kept
}

// share is a part of a volume.
func share(v unit.Volume, part unit.Ratio) unit.Volume { return v * unit.Volume(part) }
