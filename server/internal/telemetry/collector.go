package telemetry

import (
	"context"
	"errors"
	"fmt"

	"go.opentelemetry.io/contrib/instrumentation/google.golang.org/grpc/otelgrpc"
	"go.opentelemetry.io/contrib/instrumentation/google.golang.org/grpc/otelgrpc/filters"
	"go.opentelemetry.io/otel/exporters/otlp/otlpmetric/otlpmetricgrpc"
	"go.opentelemetry.io/otel/exporters/otlp/otlptrace/otlptracegrpc"
	"go.opentelemetry.io/otel/propagation"
	"go.opentelemetry.io/otel/sdk/metric"
	"go.opentelemetry.io/otel/sdk/resource"
	"go.opentelemetry.io/otel/sdk/trace"
	semconv "go.opentelemetry.io/otel/semconv/v1.37.0"
	"google.golang.org/grpc/stats"

	"example.com/pondwright/server/internal/config"
)

// Collected sends traces and metrics to a collector.
type Collected struct {
	traces  *trace.TracerProvider
	metrics *metric.MeterProvider
}

// Collect begins to send. It does not wait for the collector to answer.
func Collect(ctx context.Context, t config.Telemetry, version string) (*Collected, error) {
	spans, err := otlptracegrpc.New(ctx, otlptracegrpc.WithEndpointURL(t.OTLP))
	if err != nil {
		return nil, fmt.Errorf("send traces: %w", err)
	}
	figures, err := otlpmetricgrpc.New(ctx, otlpmetricgrpc.WithEndpointURL(t.OTLP))
	if err != nil {
		return nil, errors.Join(fmt.Errorf("send metrics: %w", err), spans.Shutdown(ctx))
	}
	who := resource.NewSchemaless(semconv.ServiceName("pondwright"), semconv.ServiceVersion(version))
	return &Collected{
		traces: trace.NewTracerProvider(trace.WithBatcher(spans), trace.WithResource(who),
			trace.WithSampler(trace.ParentBased(trace.TraceIDRatioBased(t.Sample)))),
		metrics: metric.NewMeterProvider(metric.WithResource(who), metric.WithReader(metric.NewPeriodicReader(figures, metric.WithInterval(t.Interval)))),
	}, nil
}

// Handler makes a span of each call and measures it, but for probes.
func (c *Collected) Handler() stats.Handler {
	return otelgrpc.NewServerHandler(
		otelgrpc.WithTracerProvider(c.traces), otelgrpc.WithMeterProvider(c.metrics), otelgrpc.WithPropagators(propagation.TraceContext{}),
		otelgrpc.WithFilter(filters.None(filters.ServiceName("grpc.health.v1.Health"), filters.ServiceName("grpc.reflection.v1.ServerReflection"))),
	)
}

// Stop sends what is left.
func (c *Collected) Stop(ctx context.Context) error {
	return errors.Join(c.traces.Shutdown(ctx), c.metrics.Shutdown(ctx))
}
