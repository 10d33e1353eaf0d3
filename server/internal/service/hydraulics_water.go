package service

import (
	"context"

	"example.com/pondwright/calc/pipe"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/water"
	pb "example.com/pondwright/proto/pondwright/v1"
	"example.com/pondwright/server/internal/wire"
)

func (s hydraulics) CalculateWater(_ context.Context, req *pb.CalculateWaterRequest) (*pb.CalculateWaterResponse, error) {
	t := trail(req.GetWorkings())
	at := unit.Celsius(req.GetTemperatureC())
	w := water.At(t, at)
	vapour := water.VapourPressure.Run(t, water.AtTemperature{Temperature: at})
	air := water.AltitudePressure.Run(t, water.AltitudeInput{Altitude: unit.Metres(req.GetAltitudeM())})
	p, err := s.engine.provenance(req, nil)
	return &pb.CalculateWaterResponse{
		DensityKgPerM3:           w.Density.KilogramsPerCubicMetre(),
		DynamicViscosityPaS:      w.Density.KilogramsPerCubicMetre() * w.Viscosity.SquareMetresPerSecond(),
		KinematicViscosityM2PerS: w.Viscosity.SquareMetresPerSecond(),
		VapourPressureKpa:        vapour.Kilopascals(), AirPressureKpa: air.Kilopascals(),
		Workings: wire.Workings(t), Provenance: p,
	}, err
}

func (s hydraulics) ListPipeSizes(context.Context, *pb.ListPipeSizesRequest) (*pb.ListPipeSizesResponse, error) {
	return &pb.ListPipeSizesResponse{Sizes: wire.PipeSizes(pipe.Sizes())}, nil
}
