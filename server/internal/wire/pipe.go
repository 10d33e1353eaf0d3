package wire

import (
	"slices"

	"example.com/pondwright/calc/input"
	"example.com/pondwright/calc/pipe"
	"example.com/pondwright/calc/unit"
	eq "example.com/pondwright/proto/pondwright/equipment/v1"
	pb "example.com/pondwright/proto/pondwright/v1"
)

// Run reads a run of hose or pipe and adds fittings to it, but for an exit where it has one. Errors name the fields of HoseRun.
func Run(r *pb.HoseRun, more ...pipe.Fitted) (*pipe.Run, error) {
	var errs input.Errors
	length := unit.Metres(r.GetLengthM())
	spec := pipe.Spec{Length: length, Bore: unit.Millimetres(r.GetBoreMm()), Wall: Wall(r.GetWall())}
	if spec.Wall == 0 {
		spec.Wall = pipe.Smooth
	}
	if id := r.GetPipeSize(); id != "" {
		size, ok := pipe.SizeByID(id)
		if !ok {
			errs.Add("pipe_size", "take one that ListPipeSizes names", "there is no size %q", id)
		}
		spec = size.Spec(length)
	}
	fittings, err := Fittings(r.GetFittings(), r.GetFittingsInWords())
	if err != nil && !errs.AddUnder("", err) {
		return nil, err
	}
	if err := errs.Err(); err != nil {
		return nil, err
	}
	spec.TailBore = unit.Millimetres(r.GetTailBoreMm())
	for _, f := range more {
		if f.Kind != pipe.Exit || !slices.ContainsFunc(fittings, func(said pipe.Fitted) bool { return said.Kind == pipe.Exit }) {
			fittings = append(fittings, f)
		}
	}
	spec.Fittings = fittings
	return pipe.NewRun(spec)
}

var wallNames = map[pipe.Wall]eq.HoseWall{
	pipe.Smooth:     eq.HoseWall_HOSE_WALL_SMOOTH,
	pipe.Corrugated: eq.HoseWall_HOSE_WALL_CORRUGATED,
}

// PipeSizes turns sizes, and the same sizes aged, into messages.
func PipeSizes(sizes []pipe.Size) []*pb.PipeSize {
	var made []*pb.PipeSize
	for _, s := range sizes {
		made = append(made, pipeSize(s))
		if s.Wall == pipe.Smooth {
			made = append(made, pipeSize(s.Aged()))
		}
	}
	return made
}

func pipeSize(s pipe.Size) *pb.PipeSize {
	return &pb.PipeSize{
		PipeSize: s.ID, Name: s.Name, BoreMm: s.Bore.Millimetres(), BoreLeastMm: s.BoreLeast.Millimetres(), BoreMostMm: s.BoreMost.Millimetres(),
		Wall: wallNames[s.Wall], RoughnessLowMm: s.Roughness.Low.Millimetres(), RoughnessMm: s.Roughness.Usual.Millimetres(),
		RoughnessHighMm: s.Roughness.High.Millimetres(), Source: Source(s.Source), RoughnessSource: Source(s.RoughnessSource),
	}
}
