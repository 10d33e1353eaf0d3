package jsonapi_test

import (
	"bytes"
	"context"
	"encoding/json"
	"io"
	"log/slog"
	"net/http"
	"net/http/httptest"
	"os"
	"strings"
	"testing"
	"time"

	"github.com/getkin/kin-openapi/openapi3"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"google.golang.org/protobuf/reflect/protoreflect"
	"google.golang.org/protobuf/reflect/protoregistry"

	"example.com/pondwright/plugins/builtin"
	pb "example.com/pondwright/proto/pondwright/v1"
	"example.com/pondwright/server/demo"
	"example.com/pondwright/server/engine"
	"example.com/pondwright/server/internal/jsonapi"
)

func TestMain(m *testing.M) {
	if builtin.RunIfAsked(os.Args) {
		return
	}
	os.Exit(m.Run())
}

// serve runs an engine with the demo catalogue and returns where its JSON is.
func serve(t *testing.T) string {
	t.Helper()
	catalogues, clean, err := demo.Catalogue()
	require.NoError(t, err)
	e, err := engine.New(t.Context(), engine.Config{Logger: slog.New(slog.DiscardHandler), Catalogues: catalogues})
	require.NoError(t, err)
	server, closing, err := e.JSON(t.Context())
	require.NoError(t, err)
	outside := httptest.NewServer(server.Handler)
	t.Cleanup(func() {
		outside.Close()
		require.NoError(t, closing())
		ctx, cancel := context.WithTimeout(context.Background(), 5*time.Second)
		defer cancel()
		require.NoError(t, e.Stop(ctx))
		require.NoError(t, clean())
	})
	return outside.URL
}

// post sends a body as JSON and returns what came back.
func post(t *testing.T, url, body string) (int, map[string]any) {
	t.Helper()
	resp, err := http.Post(url, "application/json", strings.NewReader(body))
	require.NoError(t, err)
	return answer(t, resp)
}

func answer(t *testing.T, resp *http.Response) (int, map[string]any) {
	t.Helper()
	defer resp.Body.Close()
	text, err := io.ReadAll(resp.Body)
	require.NoError(t, err)
	var value map[string]any
	require.NoErrorf(t, json.Unmarshal(text, &value), "%s", text)
	assert.Equal(t, "application/json", resp.Header.Get("Content-Type"))
	assert.Equal(t, "nosniff", resp.Header.Get("X-Content-Type-Options"))
	return resp.StatusCode, value
}

const patio = `{"brief": {
	"pond": {"bays": [{"rectangle": {"length_m": 2.4, "width_m": 1.5}, "depth_m": 0.55}]},
	"stock": {"groups": [{"species": "SPECIES_GOLDFISH", "count": 12, "length_cm": 8}]},
	"fall": {"height_m": 0.45, "sill_width_cm": 20, "sheet": "SHEET_THIN"}, "delivery": {"hose_length_m": 3}
}}`

const suggest = "/pondwright.v1.KitService/SuggestKits"

func document(t *testing.T) *openapi3.T {
	t.Helper()
	d, err := openapi3.NewLoader().LoadFromData(jsonapi.Document)
	require.NoError(t, err)
	return d
}

// Reference: the OpenAPI specification 3.0 as kin-openapi v0.153.0 checks it. Question and answer are held to the document by the
// same library.
func TestTheDocumentDescribesWhatIsServed(t *testing.T) {
	url := serve(t)
	resp, err := http.Get(url + jsonapi.DocumentPath)
	require.NoError(t, err)
	text, err := io.ReadAll(resp.Body)
	require.NoError(t, err)
	require.NoError(t, resp.Body.Close())
	assert.True(t, bytes.Equal(jsonapi.Document, text))

	d := document(t)
	require.NoError(t, d.Validate(t.Context()))
	call := d.Paths.Value(suggest).Post
	var question any
	require.NoError(t, json.Unmarshal([]byte(patio), &question))
	require.NoError(t, call.RequestBody.Value.Content.Get("application/json").Schema.Value.VisitJSON(question))

	code, value := post(t, url+suggest, patio)
	require.Equal(t, http.StatusOK, code)
	require.NoError(t, call.Responses.Value("200").Value.Content.Get("application/json").Schema.Value.VisitJSON(value))
	assert.NotEmpty(t, value["kits"])

	code, value = post(t, url+suggest, `{"max_kits": 99}`)
	require.Equal(t, http.StatusBadRequest, code)
	require.NoError(t, call.Responses.Default().Value.Content.Get("application/json").Schema.Value.VisitJSON(value))
}

// Every call of every service of the API is described and answered. A call that streams is left out of both.
func TestEveryCallIsServedAndDescribed(t *testing.T) {
	url, d, calls := serve(t), document(t), 0
	protoregistry.GlobalFiles.RangeFilesByPackage(pb.File_pondwright_v1_finding_proto.Package(), func(file protoreflect.FileDescriptor) bool {
		for i := range file.Services().Len() {
			methods := file.Services().Get(i).Methods()
			for j := range methods.Len() {
				m := methods.Get(j)
				path := "/" + string(m.Parent().FullName()) + "/" + string(m.Name())
				if m.IsStreamingClient() || m.IsStreamingServer() {
					assert.Nil(t, d.Paths.Value(path), path)
					code, _ := post(t, url+path, `{}`)
					assert.Equal(t, http.StatusNotImplemented, code, path)
					continue
				}
				calls++
				assert.NotNil(t, d.Paths.Value(path), path)
				code, _ := post(t, url+path, `{"no_such_field": 1}`)
				assert.Equal(t, http.StatusBadRequest, code, path)
			}
		}
		return true
	})
	assert.Equal(t, calls, d.Paths.Len())
	assert.Greater(t, calls, 30)
}

// Limits of the proto stand in the document: litres of a bucket above, and fields that have to be given.
func TestTheDocumentHasTheLimitsOfTheProto(t *testing.T) {
	schemas := document(t).Components.Schemas
	depth := schemas["pondwright.v1.Bay"].Value.Properties["depth_m"].Value
	assert.InDelta(t, 0.05, *depth.Min, 0)
	assert.InDelta(t, 10, *depth.Max, 0)
	hours := schemas["pondwright.v1.Running"].Value.Properties["hours_per_day"].Value
	assert.True(t, *hours.ExclusiveMin.Bool)
	assert.EqualValues(t, 20, *schemas["pondwright.v1.Pond"].Value.Properties["bays"].Value.MaxItems)
	assert.Equal(t, []string{"curve"}, schemas["pondwright.equipment.v1.Pump"].Value.Required)
	for _, bad := range []string{`{"rectangle": {"length_m": 1, "width_m": 1}, "depth_m": 11}`, `{"depth_m": 1}`, `{"circle": {"diameter_m": 1}, "depth_m": 1, "depht": 1}`} {
		var value any
		require.NoError(t, json.Unmarshal([]byte(bad), &value))
		assert.Error(t, schemas["pondwright.v1.Bay"].Value.VisitJSON(value), bad)
	}
}

// A misspelt field is refused by its name and never taken as left out; so is everything else that is not the message.
func TestJSONIsReadStrictly(t *testing.T) {
	url := serve(t)
	for _, c := range []struct {
		name, body string
		code       int
		says       string
	}{
		{"unknown", strings.Replace(patio, `"hose_length_m"`, `"hose_lenght_m"`, 1), 400, "hose_lenght_m"},
		{"twice", `{"max_kits": 1, "max_kits": 2}`, 400, "max_kits"},
		{"wrong type", `{"max_kits": "many"}`, 400, "many"},
		{"unknown word", strings.Replace(patio, "SPECIES_GOLDFISH", "SPECIES_WHALE", 1), 400, "species"},
		{"not JSON", `max_kits=1`, 400, "does not fit"},
		{"more than one", `{} {}`, 400, "does not fit"},
		{"empty", ``, 400, "empty"},
		{"beyond a limit", strings.Replace(patio, "0.55", "55", 1), 400, "depth_m"},
		{"too large", `{"max_kits": 1` + strings.Repeat(" ", jsonapi.MaxBodyBytes) + `}`, 413, "4 MiB"},
	} {
		code, value := post(t, url+suggest, c.body)
		assert.Equal(t, c.code, code, c.name)
		assert.Contains(t, value["message"], c.says, c.name)
	}
}

// What the engine refuses comes with each field to change, as google.rpc.BadRequest, through the same interceptors as gRPC.
func TestRefusalsListEveryField(t *testing.T) {
	code, value := post(t, serve(t)+suggest, strings.NewReplacer("0.55", "55", `"count": 12`, `"count": 0`).Replace(patio))
	assert.Equal(t, http.StatusBadRequest, code)
	var fields []any
	for _, detail := range value["details"].([]any) {
		if d := detail.(map[string]any); d["@type"] == "type.googleapis.com/google.rpc.BadRequest" {
			for _, v := range d["field_violations"].([]any) {
				fields = append(fields, v.(map[string]any)["field"])
			}
		}
	}
	assert.Equal(t, []any{"brief.pond.bays[0].depth_m", "brief.stock.groups[0].count"}, fields)
}

func TestOtherPathsAndMethodsSayWhereToGo(t *testing.T) {
	url := serve(t)
	for _, c := range []struct {
		method, path, kind string
		code               int
	}{
		{"GET", "/", "", 404}, {"GET", suggest, "", 405}, {"PUT", suggest, "application/json", 405},
		{"POST", "/pondwright.v1.KitService/SuggestFish", "application/json", 404},
		{"POST", suggest, "text/plain", 415}, {"POST", suggest, "", 415}, {"POST", suggest, "application/x-www-form-urlencoded", 415},
	} {
		req, err := http.NewRequestWithContext(t.Context(), c.method, url+c.path, strings.NewReader("{}"))
		require.NoError(t, err)
		if c.kind != "" {
			req.Header.Set("Content-Type", c.kind)
		}
		resp, err := http.DefaultClient.Do(req)
		require.NoError(t, err)
		code, value := answer(t, resp)
		assert.Equal(t, c.code, code, "%+v", c)
		assert.NotEmpty(t, value["message"], "%+v", c)
	}
}
