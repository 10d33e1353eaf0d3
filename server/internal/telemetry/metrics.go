// Package telemetry makes what an operator watches: metrics for Prometheus, traces and metrics for collectors that speak OTLP,
// and the private port that serves the operator.
package telemetry

import (
	"time"

	grpcprom "github.com/grpc-ecosystem/go-grpc-middleware/providers/prometheus"
	"github.com/prometheus/client_golang/prometheus"
	"github.com/prometheus/client_golang/prometheus/collectors"
	"google.golang.org/grpc"

	pb "example.com/pondwright/proto/pondwright/v1"
	"example.com/pondwright/server/internal/gate"
)

// Metrics are those of one engine, in a registry of their own.
type Metrics struct {
	registry *prometheus.Registry
	calls    *grpcprom.ServerMetrics
	refused  map[gate.Reason]prometheus.Counter
	panics   prometheus.Counter
	audit    prometheus.Counter
}

// buckets are seconds from a bare call to the longest search.
var buckets = []float64{0.0001, 0.0003, 0.001, 0.003, 0.01, 0.03, 0.1, 0.3, 1, 3, 10}

// NewMetrics makes the metrics of an engine of this version.
func NewMetrics(version, methodSet string) *Metrics {
	m := &Metrics{
		registry: prometheus.NewRegistry(),
		calls:    grpcprom.NewServerMetrics(grpcprom.WithServerHandlingTimeHistogram(grpcprom.WithHistogramBuckets(buckets))),
		refused:  map[gate.Reason]prometheus.Counter{},
		audit: prometheus.NewCounter(prometheus.CounterOpts{
			Name: "pondwright_audit_failures_total", Help: "Entries that could not be written to the audit log.",
		}),
		panics: prometheus.NewCounter(prometheus.CounterOpts{Name: "pondwright_panics_total", Help: "Calls that ended in a panic, which was contained."}),
	}
	refused := prometheus.NewCounterVec(prometheus.CounterOpts{
		Name: "pondwright_refused_total", Help: "Calls that were turned away before they were read, by reason.",
	}, []string{"reason"})
	for _, r := range gate.Reasons() {
		m.refused[r] = refused.WithLabelValues(string(r))
	}
	build := prometheus.NewGauge(prometheus.GaugeOpts{
		Name: "pondwright_build_info", Help: "1, with the version of the engine and its method set.",
		ConstLabels: prometheus.Labels{"version": version, "method_set": methodSet},
	})
	build.Set(1)
	m.registry.MustRegister(m.calls, refused, build, m.audit, m.panics, collectors.NewGoCollector(),
		collectors.NewProcessCollector(collectors.ProcessCollectorOpts{}))
	return m
}

// Refused counts a call that was turned away.
func (m *Metrics) Refused(r gate.Reason) { m.refused[r].Inc() }

// Panicked counts a panic.
func (m *Metrics) Panicked() { m.panics.Inc() }

// AuditFailed counts an entry that could not be written.
func (m *Metrics) AuditFailed() { m.audit.Inc() }

// Unary and Stream count calls and measure them.
func (m *Metrics) Unary() grpc.UnaryServerInterceptor { return m.calls.UnaryServerInterceptor() }

// Stream is Unary for streams.
func (m *Metrics) Stream() grpc.StreamServerInterceptor { return m.calls.StreamServerInterceptor() }

// Prepare makes each method a series from the start, so that an alert sees the first failure.
func (m *Metrics) Prepare(s *grpc.Server) { m.calls.InitializeMetrics(s) }

// InHand adds a gauge of the calls being answered.
func (m *Metrics) InHand(now func() int, most int) {
	m.registry.MustRegister(
		prometheus.NewGaugeFunc(prometheus.GaugeOpts{Name: "pondwright_calls_in_hand", Help: "Calls being answered."},
			func() float64 { return float64(now()) }),
		prometheus.NewGaugeFunc(prometheus.GaugeOpts{Name: "pondwright_calls_limit", Help: "Calls that may be in hand at once."},
			func() float64 { return float64(most) }),
	)
}

// Certificate adds a gauge of when the certificate in force ends.
func (m *Metrics) Certificate(expires func() time.Time) {
	m.registry.MustRegister(prometheus.NewGaugeFunc(
		prometheus.GaugeOpts{Name: "pondwright_certificate_expires_timestamp_seconds", Help: "When the certificate in force ends."},
		func() float64 { return float64(expires().Unix()) },
	))
}

// Catalogues adds what is in force of each catalogue.
func (m *Metrics) Catalogues(now func() []*pb.CatalogueStatus) { m.registry.MustRegister(shelf{now}) }

// shelf reads the catalogues when Prometheus asks.
type shelf struct{ now func() []*pb.CatalogueStatus }

var (
	label     = []string{"catalogue"}
	itemsDesc = prometheus.NewDesc("pondwright_catalogue_items", "Items in force.", label, nil)
	outDesc   = prometheus.NewDesc("pondwright_catalogue_quarantined_items", "Items left out for what is wrong with them.", label, nil)
	wellDesc  = prometheus.NewDesc("pondwright_catalogue_well", "1 where the last reading went well and the plugin, if it answers live, is up.", label, nil)
	sinceDesc = prometheus.NewDesc("pondwright_catalogue_in_force_timestamp_seconds", "When the reading in force began; 0 where there is none.", label, nil)
	readDesc  = prometheus.NewDesc("pondwright_catalogue_readings_total", "Readings since the start, however they went.", label, nil)
)

// Describe implements prometheus.Collector.
func (shelf) Describe(to chan<- *prometheus.Desc) {
	for _, d := range []*prometheus.Desc{itemsDesc, outDesc, wellDesc, sinceDesc, readDesc} {
		to <- d
	}
}

// Collect implements prometheus.Collector.
func (s shelf) Collect(to chan<- prometheus.Metric) {
	for _, c := range s.now() {
		gauge := func(d *prometheus.Desc, v float64) {
			to <- prometheus.MustNewConstMetric(d, prometheus.GaugeValue, v, c.GetCatalogue())
		}
		gauge(itemsDesc, float64(c.GetItemCount()))
		gauge(outDesc, float64(c.GetQuarantinedCount()))
		gauge(sinceDesc, float64(c.GetInForceTime().GetSeconds()))
		well := 0.0
		if c.GetWell() {
			well = 1
		}
		gauge(wellDesc, well)
		to <- prometheus.MustNewConstMetric(readDesc, prometheus.CounterValue, float64(c.GetReadingCount()), c.GetCatalogue())
	}
}
