// Package jsonapi is the public API as JSON over HTTP: every call of the proto, under the path that gRPC gives it, and the OpenAPI
// document that describes them. Routes and document are generated from the proto. Each call goes on to the engine through gRPC, so
// that it passes the same checks as any other. JSON is read strictly: a field that the request does not have is refused by name.
package jsonapi

import (
	"bytes"
	"context"
	_ "embed"
	"errors"
	"fmt"
	"io"
	"mime"
	"net/http"
	"strings"
	"time"

	"github.com/grpc-ecosystem/grpc-gateway/v2/runtime"
	"google.golang.org/grpc"
	"google.golang.org/grpc/codes"
	"google.golang.org/grpc/status"
	"google.golang.org/protobuf/reflect/protoreflect"
	"google.golang.org/protobuf/reflect/protoregistry"

	gateway "example.com/pondwright/server/internal/jsonapi/gateway/pondwright/v1"
)

// Document is the OpenAPI description of the API.
//
//go:embed openapi.json
var Document []byte

// DocumentPath is where it is served.
const DocumentPath = "/openapi.json"

// MaxBodyBytes is what a request may hold, as on the gRPC port.
const MaxBodyBytes = 4 << 20

// New makes the handler of an API whose calls go through the connection. With ctx the connection's use ends.
func New(ctx context.Context, conn *grpc.ClientConn) (http.Handler, error) {
	mux := runtime.NewServeMux(
		runtime.WithMarshalerOption(runtime.MIMEWildcard, newStrict()),
		runtime.WithRoutingErrorHandler(lost),
		runtime.WithIncomingHeaderMatcher(passes),
		runtime.WithDisablePathLengthFallback(),
	)
	for _, register := range []func(context.Context, *runtime.ServeMux, *grpc.ClientConn) error{
		gateway.RegisterVolumeServiceHandler, gateway.RegisterHydraulicsServiceHandler, gateway.RegisterCircuitServiceHandler,
		gateway.RegisterFallServiceHandler, gateway.RegisterFiltrationServiceHandler, gateway.RegisterUvServiceHandler,
		gateway.RegisterKitServiceHandler, gateway.RegisterCatalogueServiceHandler, gateway.RegisterCurveServiceHandler,
		gateway.RegisterJobServiceHandler,
		gateway.RegisterSeasonServiceHandler,
	} {
		if err := register(ctx, mux, conn); err != nil {
			return nil, fmt.Errorf("serve JSON: %w", err)
		}
	}
	routes := http.NewServeMux()
	routes.HandleFunc("GET "+DocumentPath, document)
	routes.Handle("/", checked(mux))
	return headed(routes), nil
}

// NewServer is an HTTP server for the handler, with limits on what a slow or greedy caller can hold.
func NewServer(handler http.Handler) *http.Server {
	return &http.Server{
		Handler: handler, ReadHeaderTimeout: 10 * time.Second, ReadTimeout: 30 * time.Second, IdleTimeout: 2 * time.Minute,
		MaxHeaderBytes: 64 << 10,
	}
}

func document(w http.ResponseWriter, _ *http.Request) {
	w.Header().Set("Content-Type", "application/json")
	_, _ = w.Write(Document) // the caller has gone
}

// passes are the headers that go on to the engine beside Authorization, which always does.
func passes(header string) (string, bool) {
	switch strings.ToLower(header) {
	case "traceparent", "tracestate", "x-request-id":
		return strings.ToLower(header), true
	}
	return "", false
}

// headed sets the headers of every answer.
func headed(next http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		w.Header().Set("Cache-Control", "no-store")
		w.Header().Set("X-Content-Type-Options", "nosniff")
		next.ServeHTTP(w, r)
	})
}

// checked refuses bodies that are not JSON or too large before any of them is read as a message.
func checked(mux *runtime.ServeMux) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		if r.Method == http.MethodPost {
			if streams(r.URL.Path) {
				refuse(w, r, mux, http.StatusNotImplemented, codes.Unimplemented, "this call streams, which JSON over HTTP does not: make it by gRPC")
				return
			}
			// A web page of somebody else can send a form or plain text from its reader's browser, and no other type without asking.
			kind, _, err := mime.ParseMediaType(r.Header.Get("Content-Type"))
			if err != nil || kind != "application/json" {
				refuse(w, r, mux, http.StatusUnsupportedMediaType, codes.InvalidArgument, "send the request as JSON, with the header Content-Type: application/json")
				return
			}
			body, err := io.ReadAll(http.MaxBytesReader(w, r.Body, MaxBodyBytes))
			var tooLarge *http.MaxBytesError
			switch {
			case errors.As(err, &tooLarge):
				refuse(w, r, mux, http.StatusRequestEntityTooLarge, codes.ResourceExhausted,
					fmt.Sprintf("the request is larger than %d MiB, the most that is taken", MaxBodyBytes>>20))
				return
			case err != nil:
				return // the caller has gone
			}
			r.Body = io.NopCloser(bytes.NewReader(body))
		}
		mux.ServeHTTP(w, r)
	})
}

// streams reports whether the call of a path takes or gives more than one message. Such calls are left to gRPC.
func streams(path string) bool {
	service, method, _ := strings.Cut(strings.TrimPrefix(path, "/"), "/")
	found, err := protoregistry.GlobalFiles.FindDescriptorByName(protoreflect.FullName(service).Append(protoreflect.Name(method)))
	if err != nil {
		return false
	}
	m, ok := found.(protoreflect.MethodDescriptor)
	return ok && (m.IsStreamingClient() || m.IsStreamingServer())
}

// lost answers a path or a method that there is not.
func lost(_ context.Context, mux *runtime.ServeMux, _ runtime.Marshaler, w http.ResponseWriter, r *http.Request, code int) {
	grpcCode := codes.NotFound
	if code == http.StatusMethodNotAllowed {
		w.Header().Set("Allow", http.MethodPost)
		grpcCode = codes.Unimplemented
	}
	refuse(w, r, mux, code, grpcCode, "every call is a POST to /PACKAGE.SERVICE/METHOD, such as /pondwright.v1.KitService/SuggestKits; "+DocumentPath+" lists them")
}

func refuse(w http.ResponseWriter, r *http.Request, mux *runtime.ServeMux, code int, grpcCode codes.Code, message string) {
	err := &runtime.HTTPStatusError{HTTPStatus: code, Err: status.Error(grpcCode, message)}
	runtime.DefaultHTTPErrorHandler(r.Context(), mux, newStrict(), w, r, err)
}
