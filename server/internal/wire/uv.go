package wire

import (
	"example.com/pondwright/calc/uv"
	pb "example.com/pondwright/proto/pondwright/v1"
)

// LampDose turns a dose into a message.
func LampDose(d uv.Dose) *pb.LampDose {
	return &pb.LampDose{
		Output_254NmW: d.Output.Watts(), FluenceRateMwPerCm2: d.FluenceRate.MilliwattsPerSquareCentimetre(),
		ResidenceS: d.Residence.Seconds(), PassMeanMjPerCm2: d.Mean.MillijoulesPerSquareCentimetre(),
		PassLeastMjPerCm2: d.Fastest.MillijoulesPerSquareCentimetre(), DailyMjPerCm2: d.Daily.MillijoulesPerSquareCentimetre(),
		PassesPerDay: d.PassesPerDay.Float(),
	}
}
