package operate_test

import (
	"bytes"
	"sync"

	pb "example.com/pondwright/proto/pondwright/v1"
)

// lines is a log that several may write to and the test reads.
type lines struct {
	mu sync.Mutex
	to *bytes.Buffer
}

// Write implements io.Writer.
func (l *lines) Write(p []byte) (int, error) {
	l.mu.Lock()
	defer l.mu.Unlock()
	return l.to.Write(p)
}

// brief is a small invented pond with goldfish, for which there are many sets to try.
func brief() *pb.Brief {
	height := 0.5
	return &pb.Brief{
		Stock: &pb.Stock{Groups: []*pb.FishGroup{{Species: pb.Species_SPECIES_GOLDFISH, Count: 5, LengthCm: 10}}},
		Pond: &pb.Pond{Bays: []*pb.Bay{{
			Outline: &pb.Bay_Rectangle{Rectangle: &pb.Rectangle{LengthM: 2, WidthM: 1.5}}, DepthM: 0.6,
		}}},
		Fall:     &pb.Fall{HeightM: &height, SillWidthCm: 20, Wanted: &pb.Fall_Sheet{Sheet: pb.Sheet_SHEET_THIN}},
		Delivery: &pb.Delivery{HoseLengthM: 4},
	}
}
