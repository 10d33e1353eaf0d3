package web

import (
	"context"
	"io"
	"net"
	"net/http"
	"net/http/httptest"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"google.golang.org/genproto/googleapis/rpc/errdetails"
	"google.golang.org/grpc"
	"google.golang.org/grpc/codes"
	"google.golang.org/grpc/credentials/insecure"
	"google.golang.org/grpc/status"
	"google.golang.org/grpc/test/bufconn"

	eq "example.com/pondwright/proto/pondwright/equipment/v1"
	pb "example.com/pondwright/proto/pondwright/v1"
)

// A puppet is an engine that answers what a test tells it to.
type puppet struct {
	pb.UnimplementedKitServiceServer
	pb.UnimplementedCatalogueServiceServer
	asked   *pb.SuggestKitsRequest
	answer  *pb.SuggestKitsResponse
	checked *pb.CheckKitRequest
	verdict *pb.CheckKitResponse
	err     error
}

func (p *puppet) SuggestKits(_ context.Context, req *pb.SuggestKitsRequest) (*pb.SuggestKitsResponse, error) {
	p.asked = req
	return p.answer, p.err
}

func (p *puppet) CheckKit(_ context.Context, req *pb.CheckKitRequest) (*pb.CheckKitResponse, error) {
	p.checked = req
	return p.verdict, p.err
}

func (p *puppet) ListItems(context.Context, *pb.ListItemsRequest) (*pb.ListItemsResponse, error) {
	return &pb.ListItemsResponse{Items: []*pb.CataloguedItem{thing("p", "pump <b>")}}, nil
}

func thing(number, description string) *pb.CataloguedItem {
	return &pb.CataloguedItem{Catalogue: "shop", Item: &eq.Item{ItemNumber: number, Description: description, Price: new(10.0)}}
}

// stage puts the page before a puppet.
func stage(t *testing.T, p *puppet) http.Handler {
	t.Helper()
	pipe := bufconn.Listen(1 << 16)
	server := grpc.NewServer()
	pb.RegisterKitServiceServer(server, p)
	pb.RegisterCatalogueServiceServer(server, p)
	go func() { _ = server.Serve(pipe) }()
	conn, err := grpc.NewClient("passthrough:///puppet", grpc.WithTransportCredentials(insecure.NewCredentials()),
		grpc.WithContextDialer(func(ctx context.Context, _ string) (net.Conn, error) { return pipe.DialContext(ctx) }))
	require.NoError(t, err)
	t.Cleanup(func() {
		require.NoError(t, conn.Close())
		server.Stop()
	})
	handler, err := New(Config{Engine: conn, Energy: "0.30", Currency: "GBP"})
	require.NoError(t, err)
	return handler
}

func get(t *testing.T, h http.Handler, address string) (int, string, http.Header) {
	t.Helper()
	w := httptest.NewRecorder()
	h.ServeHTTP(w, httptest.NewRequest(http.MethodGet, address, nil))
	text, err := io.ReadAll(w.Body)
	require.NoError(t, err)
	return w.Code, string(text), w.Header()
}

const pond = "volume=2000&hose=3&fall=0.5&sill=20"

func TestWhatTheEngineRefusesStandsBesideItsField(t *testing.T) {
	st, err := status.New(codes.InvalidArgument, "bad").WithDetails(&errdetails.BadRequest{FieldViolations: []*errdetails.BadRequest_FieldViolation{
		{Field: "quick_brief.fall.height_m", Description: "too high for water"}, {Field: "set.pump", Description: "no pump of that number"},
	}})
	require.NoError(t, err)
	code, text, _ := get(t, stage(t, &puppet{err: st.Err()}), "/kits?"+pond)
	assert.Equal(t, http.StatusUnprocessableEntity, code)
	assert.Contains(t, text, `id="fault-fall">Too high for water.`)
	assert.Contains(t, text, "no pump of that number.")
	assert.Contains(t, text, `value="2000"`)
}

func TestEveryTroubleOfTheEngineIsToldAndKeepsTheForm(t *testing.T) {
	for _, c := range []struct {
		code  codes.Code
		says  string
		retry bool
	}{
		{codes.Unavailable, "does not answer", true}, {codes.DeadlineExceeded, "too long", true}, {codes.ResourceExhausted, "busy", true},
		{codes.FailedPrecondition, "nothing to choose from", true}, {codes.Internal, "went wrong", true}, {codes.Unimplemented, "cannot do that yet", false},
	} {
		code, text, _ := get(t, stage(t, &puppet{err: status.Error(c.code, "x")}), "/kits?"+pond)
		assert.Equal(t, http.StatusServiceUnavailable, code, c.code)
		assert.Contains(t, text, c.says)
		assert.Contains(t, text, `value="2000"`)
		assert.Equal(t, c.retry, strings.Contains(text, "Try again</a>"), c.code)
	}
}

// Words of a catalogue or of an address are words, whatever they look like.
func TestWordsFromOutsideAreEscaped(t *testing.T) {
	p := &puppet{answer: &pb.SuggestKitsResponse{Kits: []*pb.Kit{{
		Works: true, Pump: thing(`"><script>alert(1)</script>`, "<i>pump</i>"), Hose: thing("h", "hose"), Cost: &pb.KitCost{Currency: "GBP"},
		Findings: []*pb.Finding{{Code: "X", Severity: pb.Severity_SEVERITY_CAUTION, Sentence: "<u>no</u>"}},
	}}, WhyFirst: []string{"<s>"}}}
	_, text, header := get(t, stage(t, p), "/kits?"+pond+"&units=%3Cb%3E&fish=%22%3E%3Cscript%3E")
	for _, tag := range []string{"<script>alert", "<i>", "<u>", "<s>", `"><script>`} {
		assert.NotContains(t, text, tag)
	}
	_, text, _ = get(t, stage(t, p), "/kits?"+pond)
	for _, tag := range []string{"<script>alert", "<i>", "<u>", "<s>"} {
		assert.NotContains(t, text, tag)
	}
	assert.Contains(t, header.Get("Content-Security-Policy"), "default-src 'none'")
	_, text, _ = get(t, stage(t, p), "/recall?code=%22%3E%3Cscript%3E")
	assert.NotContains(t, text, `"><script>`)
	_, text, _ = get(t, stage(t, p), "/check?set-pump=%22%3E%3Cscript%3E&asked=1")
	assert.NotContains(t, text, `"><script>`)
	assert.NotContains(t, text, "pump <b>")
}

// What the customer has goes into the brief, and what is bought into the set; a second pump goes where it belongs.
func TestASetIsPutToTheEngine(t *testing.T) {
	p := &puppet{err: status.Error(codes.Unavailable, "")}
	h := stage(t, p)
	get(t, h, "/check?"+pond+"&set-pump=shop/p1&set-hose=shop/h1&set-filter=f&own-filter=1&set-pump2=shop/p2&set-hose2=shop/h2")
	set := p.checked.GetSet()
	assert.Equal(t, "p1", set.GetPump().GetReference().GetItemNumber())
	assert.Equal(t, "shop", set.GetPump().GetReference().GetCatalogue())
	assert.Nil(t, set.GetFilter())
	assert.Equal(t, "f", p.checked.GetQuickBrief().GetOwned().GetFilter().GetReference().GetItemNumber())
	assert.Equal(t, "p2", set.GetSecondPump().GetFall().GetPump().GetReference().GetItemNumber())
	assert.Equal(t, "GBP", p.checked.GetQuickBrief().GetCurrency())
	get(t, h, "/check?"+pond+"&set-pump=shop/p1&set-hose=shop/h1&set-pump2=shop/p1")
	assert.True(t, p.checked.GetSet().GetSecondPump().GetSideBySide())
}

// A kit of two pumps is shown, and goes onto a slip with both.
func TestAKitOfTwoPumps(t *testing.T) {
	k := &pb.Kit{
		Works: true, Pump: thing("P1", "pump"), Hose: thing("H1", "hose"), Cost: &pb.KitCost{Currency: "GBP", Price: 40},
		SecondPump: &pb.SecondPump{Arrangement: pb.TwoPumps_TWO_PUMPS_FILTER_AND_FALL, Pump: thing("P2", "pump"), Hose: thing("H2", "hose"), HoseLengthM: 4},
	}
	p := &puppet{answer: &pb.SuggestKitsResponse{Kits: []*pb.Kit{k}}, verdict: &pb.CheckKitResponse{Kit: k}}
	h := stage(t, p)
	_, text, _ := get(t, h, "/kits?"+pond)
	assert.Contains(t, text, "Pump for the fall")
	assert.Contains(t, text, "set-pump2=shop%2FP2")
	code, text, _ := get(t, h, "/slip?"+pond+"&set-pump=shop/P1&set-hose=shop/H1&set-pump2=shop/P2&set-hose2=shop/H2")
	assert.Equal(t, http.StatusOK, code)
	assert.Contains(t, text, "P2")
	assert.Contains(t, text, `class="letters"`)
}

func TestAddressesWithoutAKitSaySo(t *testing.T) {
	h := stage(t, &puppet{})
	for _, address := range []string{"/slip?" + pond, "/swap?" + pond, "/swap?" + pond + "&set-pump=p&set-hose=h&out=fish"} {
		code, text, _ := get(t, h, address)
		assert.Equal(t, http.StatusUnprocessableEntity, code, address)
		assert.Contains(t, text, "no kit in this address", address)
	}
	code, _, _ := get(t, h, "/nothing")
	assert.Equal(t, http.StatusNotFound, code)
	_, text, _ := get(t, h, "/")
	assert.Contains(t, text, `value="0.30"`, "the shop's price of electricity")
}

// Nothing that is typed, however odd, breaks the page.
func FuzzAddress(f *testing.F) {
	for _, q := range []string{pond, "volume=%ff&units=uk", "set-pump=/&set-hose=//&out=pump", "code=0000", "length=5'6\""} {
		f.Add(q)
	}
	var h http.Handler
	f.Fuzz(func(t *testing.T, query string) {
		if h == nil {
			made, err := New(Config{Engine: unreachable(t)})
			require.NoError(t, err)
			h = made
		}
		for _, path := range []string{"/", "/kits", "/check", "/swap", "/slip", "/recall", "/units"} {
			r := httptest.NewRequest(http.MethodGet, path, nil)
			r.URL.RawQuery = query
			w := httptest.NewRecorder()
			h.ServeHTTP(w, r)
			assert.NotEqual(t, http.StatusInternalServerError, w.Code, "%s?%s", path, query)
		}
	})
}

// unreachable is the way to an engine that is not there.
func unreachable(t *testing.T) *grpc.ClientConn {
	t.Helper()
	conn, err := grpc.NewClient("passthrough:///nobody", grpc.WithTransportCredentials(insecure.NewCredentials()),
		grpc.WithContextDialer(func(context.Context, string) (net.Conn, error) { return nil, io.EOF }))
	require.NoError(t, err)
	return conn
}
