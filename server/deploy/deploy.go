// Package deploy holds what the server is run with: settings, a unit for systemd, manifests for Kubernetes, a balancer, alert
// rules and a dashboard. See README.md here.
package deploy

import _ "embed"

// ServiceConfig is the gRPC service config for clients: calls go round all replicas that are well, and a calculation whose
// replica was lost is asked of another. Calculations have no side effects, so that asking twice is safe; having catalogues read
// again is not asked twice.
//
//go:embed client-service-config.json
var ServiceConfig string
