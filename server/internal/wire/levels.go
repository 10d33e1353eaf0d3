package wire

import (
	"example.com/pondwright/calc/dig"
	"example.com/pondwright/calc/finding"
	"example.com/pondwright/calc/outline"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/working"
	pb "example.com/pondwright/proto/pondwright/v1"
)

// Error is the largest numerical error of the pond's volume: that of its bays, each by its share.
func (p *Pond) Error() unit.Ratio {
	var off unit.Volume
	for _, m := range p.Sized {
		off += unit.Volume(m.VolumeError) * m.Volume
	}
	return unit.Ratio(off / p.Joined.Volume())
}

// Lengths reads metres.
func Lengths(metres []float64) []unit.Length {
	made := make([]unit.Length, len(metres))
	for i, m := range metres {
		made[i] = unit.Metres(m)
	}
	return made
}

// Levels turns levels into messages.
func Levels(levels []outline.Level) []*pb.CalculateLevelsResponse_Level {
	made := make([]*pb.CalculateLevelsResponse_Level, len(levels))
	for i, l := range levels {
		made[i] = &pb.CalculateLevelsResponse_Level{
			FallenM: l.Fallen.Metres(), AreaM2: l.Area.SquareMetres(), VolumeL: l.Left.Litres(), SharePercent: l.Share.Percent(), LostL: l.Lost.Litres(),
		}
	}
	return made
}

// Refuges turns the water below depths into messages.
func Refuges(levels []outline.Level) []*pb.CalculateLevelsResponse_Refuge {
	made := make([]*pb.CalculateLevelsResponse_Refuge, len(levels))
	for i, l := range levels {
		made[i] = &pb.CalculateLevelsResponse_Refuge{BelowM: l.Fallen.Metres(), VolumeL: l.Left.Litres(), SharePercent: l.Share.Percent()}
	}
	return made
}

// Drops says how far the level falls for each amount of water.
func Drops(water outline.Joined, litres []float64) []*pb.CalculateLevelsResponse_Drop {
	made := make([]*pb.CalculateLevelsResponse_Drop, len(litres))
	for i, l := range litres {
		fallen, enough := water.DropFor(unit.Litres(l))
		made[i] = &pb.CalculateLevelsResponse_Drop{LostL: l, FallenM: fallen.Metres(), Empties: !enough || fallen == water.Depth()}
	}
	return made
}

// Draws says what a pump in each bay takes of a joined pond, whose saddle was checked when it was measured.
func Draws(p Pond) []*pb.CalculateLevelsResponse_Draw {
	made := make([]*pb.CalculateLevelsResponse_Draw, 0, len(p.Names))
	for i, name := range p.Names {
		if drawn, left, err := p.Joined.Within(i); err == nil {
			made = append(made, &pb.CalculateLevelsResponse_Draw{Bay: name, DrawnL: drawn.Litres(), LeftL: left.Litres()})
		}
	}
	return made
}

// TopUp turns the usual fall of the level into a message.
func TopUp(water outline.Joined) (*pb.CalculateLevelsResponse_TopUp, finding.Finding) {
	soon, late, found := water.TopUp()
	return &pb.CalculateLevelsResponse_TopUp{
		SoonMm: outline.TopUpSoon.Millimetres(), LateMm: outline.TopUpLate.Millimetres(), SoonL: soon.Litres(), LateL: late.Litres(),
	}, found
}

// Spare is what the pond takes before it runs over, where its freeboard is known.
func Spare(t *working.Trail, p Pond, freeboardM *float64) *float64 {
	if freeboardM == nil {
		return nil
	}
	var sum unit.Volume
	for i, m := range p.Sized {
		t.About(p.Names[i])
		sum += dig.RimVolume.Run(t, dig.RimInput{
			Area: m.Area, Perimeter: m.Perimeter, Freeboard: unit.Metres(*freeboardM), Batter: p.Bays[i].Batter,
		})
	}
	return new(sum.Litres())
}
