package service

import (
	"context"
	"errors"

	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/uv"
	"example.com/pondwright/calc/uv/clarity"
	"example.com/pondwright/calc/uv/field"
	"example.com/pondwright/calc/working"
	eq "example.com/pondwright/proto/pondwright/equipment/v1"
	pb "example.com/pondwright/proto/pondwright/v1"
	"example.com/pondwright/server/internal/wire"
)

// A lampRequest is a question about a unit in some state.
type lampRequest interface {
	GetLampUnit() *eq.LampUnit
	GetCondition() *pb.LampCondition
}

// lampField works out the light in the chamber, with the life used that the caller gives, or else age.
func lampField(t *working.Trail, req lampRequest, transmittance, age unit.Ratio) (uv.Unit, uv.Field, error) {
	u, c := wire.LitUnit(req.GetLampUnit(), req.GetCondition(), transmittance, age)
	f, err := uv.FieldAt(t, u, c)
	return u, f, err
}

func (s uvLight) CalculateField(ctx context.Context, req *pb.CalculateFieldRequest) (*pb.CalculateFieldResponse, error) {
	t := trail(req.GetWorkings())
	w := wire.LitWater(req.GetWater())
	u, f, err := lampField(t, req, w.Transmittance, newLamp)
	if err != nil {
		return nil, refused(err, "")
	}
	resp := fieldAnswer(t, f)
	if req.LampOffsetMm != nil {
		apart, err := f.LampsApart(t, unit.Millimetres(req.GetLampOffsetMm()))
		if err != nil {
			return nil, refused(err, "")
		}
		resp.LampsApart = wire.LampsApart(apart)
	}
	spots, err := picture(f, req, stopper(ctx))
	if errors.Is(err, uv.ErrStopped) {
		return nil, gone(ctx)
	} else if err != nil {
		return nil, err
	}
	resp.Points, resp.BareLamp = wire.FieldPoints(spots), wire.BareLamp(uv.Bare(t, u))
	resp.Findings = wire.Findings(append(append(w.Findings, f.Findings...), uv.CautionsFor(nil, u)...))
	resp.Workings = wire.Workings(t)
	resp.Provenance, err = s.engine.provenance(req, nil)
	return resp, err
}

func fieldAnswer(t *working.Trail, f uv.Field) *pb.CalculateFieldResponse {
	absorbed := func(E unit.FluenceRate) *pb.FieldModel {
		return wire.FieldModel(E, field.AbsorbedShare.Run(t, field.AbsorbedShareInput{
			Absorption: f.Absorption, FluenceRate: E, Volume: f.Volume, Output: f.Output,
		}))
	}
	return &pb.CalculateFieldResponse{
		Light: wire.LampLight(f.Light), AbsorptionBaseEPerM: f.Absorption.PerMetre(),
		AbsorptionBase_10PerM: clarity.Decadic.Run(t, clarity.NaperianInput{Naperian: f.Absorption}).PerMetre(),
		ChamberWaterL:         f.Volume.Litres(),
		Radial:                absorbed(f.Radial), LineSource: absorbed(f.LineSource), Careful: absorbed(f.Careful),
		PointSourceChecks: wire.PointSourceChecks(f.CheckByPoints(t)),
	}
}

// picture gives the light where the caller asks for it.
func picture(f uv.Field, req *pb.CalculateFieldRequest, stop func() bool) ([]uv.Spot, error) {
	offset := unit.Millimetres(req.GetLampOffsetMm())
	if grid := req.GetGrid(); grid != nil {
		raster := wire.FieldGrid(grid)
		raster.Stop = stop
		spots, err := f.Raster(raster, offset)
		return spots, refused(err, "grid")
	}
	spots := wire.FieldPlaces(req.GetPlaces())
	return spots, refused(f.LightAt(spots, offset), "places")
}

func (s uvLight) CalculateClarity(_ context.Context, req *pb.CalculateClarityRequest) (*pb.CalculateClarityResponse, error) {
	t := trail(req.GetWorkings())
	a, err := clarity.Describe(t, wire.Clarity(req))
	if err != nil {
		return nil, refused(err, "")
	}
	p, err := s.engine.provenance(req, nil)
	return &pb.CalculateClarityResponse{
		Stated: wire.WaterClarity(a.Stated), WithAlgae: wire.WaterClarity(a.WithAlgae), WaterKind: wire.WaterKind(a.Kind),
		Findings: wire.Findings(a.Findings), Workings: wire.Workings(t), Provenance: p,
	}, err
}

func (s uvLight) ListWaterKinds(_ context.Context, req *pb.ListWaterKindsRequest) (*pb.ListWaterKindsResponse, error) {
	resp := &pb.ListWaterKindsResponse{}
	for _, w := range clarity.Waters() {
		resp.WaterKinds = append(resp.WaterKinds, wire.WaterKind(&w))
	}
	var err error
	resp.Provenance, err = s.engine.provenance(req, nil)
	return resp, err
}
