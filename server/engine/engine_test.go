package engine_test

import (
	"context"
	"log/slog"
	"net"
	"os"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"google.golang.org/genproto/googleapis/rpc/errdetails"
	"google.golang.org/grpc"
	"google.golang.org/grpc/codes"
	"google.golang.org/grpc/credentials/insecure"
	healthpb "google.golang.org/grpc/health/grpc_health_v1"
	reflectionpb "google.golang.org/grpc/reflection/grpc_reflection_v1"
	"google.golang.org/grpc/status"
	"google.golang.org/protobuf/reflect/protoreflect"
	"google.golang.org/protobuf/reflect/protoregistry"

	"example.com/pondwright/plugins/builtin"
	eq "example.com/pondwright/proto/pondwright/equipment/v1"
	pb "example.com/pondwright/proto/pondwright/v1"
	"example.com/pondwright/server/engine"
	"example.com/pondwright/server/internal/catalogue"
)

// The catalogue plugin is this test binary again.
func TestMain(m *testing.M) {
	if builtin.RunIfAsked(os.Args) || misbehaves(os.Args) {
		return
	}
	os.Exit(m.Run())
}

// start runs an engine with the demo catalogue on a port of its own.
func start(t testing.TB) (*engine.Engine, *grpc.ClientConn) {
	t.Helper()
	return startWith(t, "../../testdata/catalogues/demo")
}

// startWith runs an engine with the catalogue of a folder.
func startWith(t testing.TB, folder string) (*engine.Engine, *grpc.ClientConn) {
	t.Helper()
	source, err := catalogue.CSV("demo", folder)
	require.NoError(t, err)
	return serve(t, engine.Config{Logger: slog.New(slog.DiscardHandler), Catalogues: []catalogue.Source{source}})
}

// serve runs an engine on a port of its own until the test ends.
func serve(t testing.TB, cfg engine.Config) (*engine.Engine, *grpc.ClientConn) {
	t.Helper()
	e, err := engine.New(t.Context(), cfg)
	require.NoError(t, err)
	l, err := net.Listen("tcp", "127.0.0.1:0")
	require.NoError(t, err)
	served := make(chan error, 1)
	go func() { served <- e.Serve(l) }()
	conn, err := grpc.NewClient(l.Addr().String(), grpc.WithTransportCredentials(insecure.NewCredentials()))
	require.NoError(t, err)
	t.Cleanup(func() {
		require.NoError(t, conn.Close())
		ctx, cancel := context.WithTimeout(context.Background(), 20*time.Second)
		defer cancel()
		require.NoError(t, e.Stop(ctx))
		require.NoError(t, <-served)
	})
	return e, conn
}

func TestHealthAndReflectionAnswerForEveryService(t *testing.T) {
	_, conn := start(t)
	stream, err := reflectionpb.NewServerReflectionClient(conn).ServerReflectionInfo(t.Context())
	require.NoError(t, err)
	require.NoError(t, stream.Send(&reflectionpb.ServerReflectionRequest{
		MessageRequest: &reflectionpb.ServerReflectionRequest_ListServices{},
	}))
	listed, err := stream.Recv()
	require.NoError(t, err)
	require.NoError(t, stream.CloseSend())
	ours := 0
	for _, s := range listed.GetListServicesResponse().GetService() {
		if len(s.GetName()) > 14 && s.GetName()[:14] == "pondwright.v1." {
			ours++
			health, err := healthpb.NewHealthClient(conn).Check(t.Context(), &healthpb.HealthCheckRequest{Service: s.GetName()})
			require.NoError(t, err, s.GetName())
			assert.Equal(t, healthpb.HealthCheckResponse_SERVING, health.GetStatus())
		}
	}
	described := 0
	protoregistry.GlobalFiles.RangeFilesByPackage("pondwright.v1", func(f protoreflect.FileDescriptor) bool {
		described += f.Services().Len()
		return true
	})
	assert.Equal(t, described, ours)
}

func TestEveryViolationIsListedAtOnce(t *testing.T) {
	_, conn := start(t)
	_, err := pb.NewVolumeServiceClient(conn).CalculateVolume(t.Context(), &pb.CalculateVolumeRequest{Pond: &pb.Pond{Bays: []*pb.Bay{
		{DepthM: 99, Outline: &pb.Bay_Rectangle{Rectangle: &pb.Rectangle{LengthM: -1, WidthM: 2}}},
		{DepthM: 1},
	}}})
	assert.Equal(t, []string{"pond.bays[0].rectangle.length_m", "pond.bays[0].depth_m", "pond.bays[1].outline"}, fields(t, err))
}

func TestWhatOnlyTheCalculationSeesNamesItsFieldToo(t *testing.T) {
	_, conn := start(t)
	bow := &pb.Polygon{Points: []*pb.Point{point(0, 0), point(3, 3), point(3, 0), point(0, 3)}}
	_, err := pb.NewVolumeServiceClient(conn).CalculateVolume(t.Context(), &pb.CalculateVolumeRequest{Pond: &pb.Pond{Bays: []*pb.Bay{
		{DepthM: 1, Outline: &pb.Bay_Polygon{Polygon: bow}},
		{DepthM: 1, Outline: &pb.Bay_Rectangle{Rectangle: &pb.Rectangle{LengthM: 2, WidthM: 2}}, Steps: []*pb.Step{{DepthM: 2, WidthM: 0.3}}},
	}}})
	for i, field := range fields(t, err) {
		assert.Contains(t, field, []string{"pond.bays[0].polygon", "pond.bays[1].steps[0]"}[i])
	}
}

func fields(t *testing.T, err error) []string {
	t.Helper()
	s := status.Convert(err)
	require.Equal(t, codes.InvalidArgument, s.Code(), s.Message())
	var named []string
	for _, d := range s.Details() {
		if bad, ok := d.(*errdetails.BadRequest); ok {
			for _, v := range bad.GetFieldViolations() {
				named = append(named, v.GetField())
				assert.NotEmpty(t, v.GetDescription())
				assert.NotEmpty(t, v.GetReason())
			}
		}
	}
	require.NotEmpty(t, named)
	return named
}

func TestItemsArePaged(t *testing.T) {
	_, conn := start(t)
	client := pb.NewCatalogueServiceClient(conn)
	whole, err := client.ListItems(t.Context(), &pb.ListItemsRequest{Kind: eq.ItemKind_ITEM_KIND_PUMP, PageSize: 1000})
	require.NoError(t, err)
	require.Empty(t, whole.GetNextPageToken())
	require.GreaterOrEqual(t, len(whole.GetItems()), 24)
	var paged []*pb.CataloguedItem
	for token, first := "", true; first || token != ""; first = false {
		page, err := client.ListItems(t.Context(), &pb.ListItemsRequest{Kind: eq.ItemKind_ITEM_KIND_PUMP, PageSize: 7, PageToken: token})
		require.NoError(t, err)
		paged, token = append(paged, page.GetItems()...), page.GetNextPageToken()
	}
	require.Len(t, paged, len(whole.GetItems()))
	for i := range paged {
		assert.Equal(t, whole.GetItems()[i].GetItem().GetItemNumber(), paged[i].GetItem().GetItemNumber())
	}
	_, err = client.ListItems(t.Context(), &pb.ListItemsRequest{PageToken: "!"})
	assert.Equal(t, []string{"page_token"}, fields(t, err))
}

func TestTheSameQuestionHasTheSameAnswer(t *testing.T) {
	_, conn := start(t)
	req := &pb.SuggestKitsRequest{Brief: brief(), Workings: true}
	first, err := pb.NewKitServiceClient(conn).SuggestKits(t.Context(), req)
	require.NoError(t, err)
	second, err := pb.NewKitServiceClient(conn).SuggestKits(t.Context(), req)
	require.NoError(t, err)
	require.NotEmpty(t, first.GetKits())
	assert.Equal(t, first.String(), second.String())
	assert.Len(t, first.GetProvenance().GetRequestDigest(), 64)
	assert.NotEmpty(t, first.GetProvenance().GetCatalogues()[0].GetRevision())
	assert.Contains(t, first.GetProvenance().GetCatalogues()[0].GetNotice(), "nvented")
}

func TestACallerWhoseTimeIsUpIsToldSo(t *testing.T) {
	_, conn := start(t)
	ctx, cancel := context.WithTimeout(t.Context(), time.Millisecond)
	defer cancel()
	_, err := pb.NewKitServiceClient(conn).SuggestKits(ctx, &pb.SuggestKitsRequest{Brief: brief()})
	assert.Equal(t, codes.DeadlineExceeded, status.Code(err))
}

func TestAnUnknownCurrencyIsRefusedByNameWithWhateverElseIsWrong(t *testing.T) {
	_, conn := start(t)
	b := brief()
	b.Running = &pb.Running{Currency: "XTS"}
	b.Pond.Bays[0].Steps[0].DepthM = 2 // below the floor
	_, err := pb.NewKitServiceClient(conn).SuggestKits(t.Context(), &pb.SuggestKitsRequest{Brief: b})
	assert.Equal(t, []string{"brief.running.currency", "brief.pond.bays[0].steps[0].depth_m"}, fields(t, err))
}

// Calls that are under way when the engine is told to stop are answered.
func TestStopLetsCallsInFlightFinish(t *testing.T) {
	e, conn := start(t)
	const calls = 8
	errs := make(chan error, calls)
	for range calls {
		go func() {
			_, err := pb.NewKitServiceClient(conn).SuggestKits(context.Background(), &pb.SuggestKitsRequest{Brief: brief()})
			errs <- err
		}()
	}
	require.NoError(t, <-errs) // the others are at work by now
	ctx, cancel := context.WithTimeout(context.Background(), 10*time.Second)
	defer cancel()
	require.NoError(t, e.Stop(ctx))
	for range calls - 1 {
		assert.NoError(t, <-errs)
	}
}

func point(x, y float64) *pb.Point { return &pb.Point{XM: &x, YM: &y} }

// brief is a small invented garden pond with goldfish.
func brief() *pb.Brief {
	height, tariff := 0.6, 0.28
	return &pb.Brief{
		Pond: &pb.Pond{Bays: []*pb.Bay{{
			Outline: &pb.Bay_Ellipse{Ellipse: &pb.Ellipse{LengthM: 3.2, WidthM: 2.2}}, DepthM: 0.8,
			Steps: []*pb.Step{{DepthM: 0.25, WidthM: 0.3}},
		}}},
		Stock:    &pb.Stock{Groups: []*pb.FishGroup{{Species: pb.Species_SPECIES_GOLDFISH, Count: 8, LengthCm: 12}}},
		Fall:     &pb.Fall{HeightM: &height, SillWidthCm: 25, Wanted: &pb.Fall_Sheet{Sheet: pb.Sheet_SHEET_THIN}},
		Delivery: &pb.Delivery{HoseLengthM: 6, Fittings: []*pb.Fitting{{Kind: pb.FittingKind_FITTING_KIND_BEND_90, Count: 2}}},
		Running:  &pb.Running{EnergyPricePerKwh: &tariff},
	}
}

func BenchmarkSuggestKits(b *testing.B) {
	_, conn := start(b)
	client, req := pb.NewKitServiceClient(conn), &pb.SuggestKitsRequest{Brief: brief()}
	b.Run("search", func(b *testing.B) {
		var sets int64
		for b.Loop() {
			resp, err := client.SuggestKits(context.Background(), req)
			require.NoError(b, err)
			sets = resp.GetSearched().GetSets()
		}
		b.ReportMetric(float64(sets), "sets/op")
	})
	b.Run("bare call", func(b *testing.B) { // the bound: the same server, the same connection, next to no work
		for b.Loop() {
			_, err := healthpb.NewHealthClient(conn).Check(context.Background(), &healthpb.HealthCheckRequest{})
			require.NoError(b, err)
		}
	})
}
