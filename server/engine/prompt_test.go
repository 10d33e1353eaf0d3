package engine_test

import (
	"context"
	"fmt"
	"log/slog"
	"math"
	"slices"
	"sync/atomic"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"google.golang.org/grpc"

	"example.com/pondwright/plugins/host/misbehave"
	pb "example.com/pondwright/proto/pondwright/v1"
	"example.com/pondwright/server/engine"
	"example.com/pondwright/server/internal/catalogue"
)

// promptly is how soon a handler has returned once its caller has gone, in the middle of several. 10 ms is the goal; the rest is for
// machines that are busy with other things.
const promptly = 40 * time.Millisecond

// lingering hears how long each handler went on after its call had ended.
type lingering struct {
	began atomic.Int64
	ended chan time.Duration
}

func (l *lingering) around(ctx context.Context, req any, _ *grpc.UnaryServerInfo, next grpc.UnaryHandler) (any, error) {
	l.began.Add(1)
	ended := make(chan time.Time, 1)
	defer context.AfterFunc(ctx, func() { ended <- time.Now() })()
	resp, err := next(ctx, req)
	if ctx.Err() != nil {
		l.ended <- time.Since(<-ended)
	} else {
		l.ended <- -1 // it was answered before
	}
	return resp, err
}

// No call works on for a caller who has gone: each of those that may take long is cut off at several moments of its work.
func TestEveryLongCallStopsPromptly(t *testing.T) {
	if misbehave.RaceDetector {
		t.Skip("what is measured is a program at full speed")
	}
	source, err := catalogue.CSV("demo", "../../testdata/catalogues/demo")
	require.NoError(t, err)
	heard := &lingering{ended: make(chan time.Duration, 1)}
	_, conn := serve(t, engine.Config{
		Logger: slog.New(slog.DiscardHandler), Catalogues: []catalogue.Source{source}, Around: []grpc.UnaryServerInterceptor{heard.around},
	})
	for name, ask := range longCalls(conn) {
		began := time.Now()
		require.NoError(t, ask(t.Context()), name)
		<-heard.ended
		whole := time.Since(began)
		var late []time.Duration
		for i := range 15 {
			ctx, cancel := context.WithTimeout(t.Context(), whole*time.Duration(i%5+1)/7)
			before := heard.began.Load()
			_ = ask(ctx)
			cancel()
			time.Sleep(20 * time.Millisecond) // a call that is on its way still begins
			if heard.began.Load() == before {
				continue // its caller had gone before it came
			}
			select {
			case d := <-heard.ended:
				if d >= 0 {
					late = append(late, d)
				}
			case <-time.After(10 * time.Second):
				t.Fatalf("%s goes on for seconds after its caller has gone", name)
			}
		}
		if len(late) == 0 {
			t.Logf("%-20s takes %v, too short to be cut off", name, whole.Round(time.Millisecond))
			continue
		}
		slices.Sort(late)
		middle := late[len(late)/2]
		t.Logf("%-20s takes %v, ends %v after its caller, %v at worst", name, whole.Round(time.Millisecond), middle.Round(10*time.Microsecond), late[len(late)-1].Round(10*time.Microsecond))
		assert.Less(t, middle, promptly, name)
	}
}

// longCalls are those with the most to work out, at about the most that their requests may hold.
func longCalls(conn *grpc.ClientConn) map[string]func(context.Context) error {
	sounded := make([]*pb.Bay, 20)
	for i := range sounded {
		points := onCircle(100, 5)
		taken := make([]*pb.Sounding, 300)
		for j := range taken {
			r, angle := 4.5*math.Sqrt(float64(j+1)/300), 2.399963*float64(j) // a sunflower's order: no two alike
			taken[j] = &pb.Sounding{At: point(r*math.Cos(angle), r*math.Sin(angle)), DepthM: 0.5 + 0.3*math.Cos(angle)}
		}
		sounded[i] = &pb.Bay{Name: fmt.Sprint(i), DepthM: 0.8, Outline: &pb.Bay_Polygon{Polygon: &pb.Polygon{Points: points}}, Soundings: &pb.Soundings{EdgeDepthM: 0.2, Taken: taken}}
	}
	year := gardenPond("maritime")
	year.Workings = true
	return map[string]func(context.Context) error{
		"PlanJob": func(ctx context.Context) error {
			_, err := pb.NewJobServiceClient(conn).PlanJob(ctx, &pb.PlanJobRequest{Job: job(), Workings: true})
			return err
		},
		"SuggestKits": func(ctx context.Context) error {
			_, err := pb.NewKitServiceClient(conn).SuggestKits(ctx, &pb.SuggestKitsRequest{Brief: brief(), MaxKits: 50, Workings: true, MaxLosers: 20})
			return err
		},
		"SimulateYear": func(ctx context.Context) error {
			_, err := pb.NewSeasonServiceClient(conn).SimulateYear(ctx, year)
			return err
		},
		"CalculateVolume": func(ctx context.Context) error {
			_, err := pb.NewVolumeServiceClient(conn).CalculateVolume(ctx, &pb.CalculateVolumeRequest{Pond: pondOf(sounded...)})
			return err
		},
		"SolveCircuit": func(ctx context.Context) error {
			_, err := pb.NewCircuitServiceClient(conn).SolveCircuit(ctx, &pb.SolveCircuitRequest{Circuit: pathsWithinPaths(5), Workings: true})
			return err
		},
		"CalculateStates": func(ctx context.Context) error {
			_, err := pb.NewCircuitServiceClient(conn).CalculateStates(ctx, &pb.CalculateStatesRequest{
				Circuit: pathsWithinPaths(5), Pond: &pb.StatesPond{Water: &pb.StatesPond_SurfaceM2{SurfaceM2: 20}},
			})
			return err
		},
		"CalculateField": func(ctx context.Context) error {
			unit := lampUnit()
			unit.LampCount, unit.ChamberDiameterMm, unit.PowerW = 2, 120, 60
			_, err := pb.NewUvServiceClient(conn).CalculateField(ctx, &pb.CalculateFieldRequest{
				LampUnit: unit, Water: uvWater(85),
				Picture: &pb.CalculateFieldRequest_Grid{Grid: &pb.FieldGrid{Plane: pb.FieldPlane_FIELD_PLANE_LENGTHWISE, Columns: 60, Rows: 60}},
			})
			return err
		},
		"RipenFilter": func(ctx context.Context) error {
			_, err := pb.NewFiltrationServiceClient(conn).RipenFilter(ctx, &pb.RipenFilterRequest{
				PondVolumeL: 10_000, Water: summer(22, 7.6), OxygenMgPerL: ptr(7.0), Days: ptr(int32(366)),
				Load: []*pb.LoadStep{{Load: &pb.LoadStep_TanGPerDay{TanGPerDay: 3}}},
			})
			return err
		},
		"ReviewCatalogue": func(ctx context.Context) error {
			_, err := pb.NewCurveServiceClient(conn).ReviewCatalogue(ctx, &pb.ReviewCatalogueRequest{})
			return err
		},
	}
}
