// Package kubernetes holds the manifests to the types that Kubernetes publishes as k8s.io/api. It is a module of its own, so
// that these stay out of the engine's.
package kubernetes

import (
	"os"
	"path/filepath"
	"testing"
	"time"

	apps "k8s.io/api/apps/v1"
	core "k8s.io/api/core/v1"
	networking "k8s.io/api/networking/v1"
	policy "k8s.io/api/policy/v1"
	"k8s.io/apimachinery/pkg/api/resource"
	meta "k8s.io/apimachinery/pkg/apis/meta/v1"
	"k8s.io/apimachinery/pkg/labels"
	"k8s.io/apimachinery/pkg/util/intstr"
	"sigs.k8s.io/yaml"
)

const folder = "../../server/deploy/kubernetes"

// read fills the typed object from a manifest. A field that the type has not, or one that is there twice, is refused.
func read(t *testing.T, name string, into any) {
	t.Helper()
	text, err := os.ReadFile(filepath.Join(folder, name))
	if err != nil {
		t.Fatal(err)
	}
	if err := yaml.UnmarshalStrict(text, into); err != nil {
		t.Fatalf("%s: %v", name, err)
	}
}

type all struct {
	settings   core.ConfigMap
	deployment apps.Deployment
	service    core.Service
	disruption policy.PodDisruptionBudget
	network    networking.NetworkPolicy
}

func manifests(t *testing.T) *all {
	t.Helper()
	m := &all{}
	of := map[string]any{
		"settings.yaml": &m.settings, "deployment.yaml": &m.deployment, "service.yaml": &m.service,
		"disruption.yaml": &m.disruption, "network.yaml": &m.network,
	}
	files, err := os.ReadDir(folder)
	if err != nil {
		t.Fatal(err)
	}
	if len(files) != len(of) {
		t.Fatalf("%d files in %s, and %d are checked here", len(files), folder, len(of))
	}
	for name, into := range of {
		read(t, name, into)
	}
	return m
}

func TestEveryManifestIsOfTheKindItSays(t *testing.T) {
	m := manifests(t)
	for want, is := range map[string]struct {
		meta.TypeMeta
		meta.ObjectMeta
	}{
		"v1/ConfigMap":                       {m.settings.TypeMeta, m.settings.ObjectMeta},
		"apps/v1/Deployment":                 {m.deployment.TypeMeta, m.deployment.ObjectMeta},
		"v1/Service":                         {m.service.TypeMeta, m.service.ObjectMeta},
		"policy/v1/PodDisruptionBudget":      {m.disruption.TypeMeta, m.disruption.ObjectMeta},
		"networking.k8s.io/v1/NetworkPolicy": {m.network.TypeMeta, m.network.ObjectMeta},
	} {
		if got := is.APIVersion + "/" + is.Kind; got != want {
			t.Errorf("%s is a %s", want, got)
		}
		if is.Name != "pondwright" || is.Namespace != "pondwright" {
			t.Errorf("%s is called %s in %s", want, is.Name, is.Namespace)
		}
	}
}

// An unknown field must fail, or reading strictly proves nothing.
func TestAMisspeltFieldIsRefused(t *testing.T) {
	err := yaml.UnmarshalStrict([]byte("apiVersion: apps/v1\nkind: Deployment\nspec: {replica: 3}\n"), &apps.Deployment{})
	if err == nil {
		t.Error("spec.replica was taken")
	}
}

func TestEverySelectorFindsThePods(t *testing.T) {
	m := manifests(t)
	pods := labels.Set(m.deployment.Spec.Template.Labels)
	for name, s := range map[string]*meta.LabelSelector{
		"deployment": m.deployment.Spec.Selector, "disruption": m.disruption.Spec.Selector, "network": &m.network.Spec.PodSelector,
		"spread": m.deployment.Spec.Template.Spec.TopologySpreadConstraints[0].LabelSelector,
	} {
		selector, err := meta.LabelSelectorAsSelector(s)
		if err != nil {
			t.Errorf("%s: %v", name, err)
		} else if selector.Empty() || !selector.Matches(pods) {
			t.Errorf("%s selects %q, and the pods have %v", name, selector, pods)
		}
	}
	if !labels.SelectorFromSet(m.service.Spec.Selector).Matches(pods) || len(m.service.Spec.Selector) == 0 {
		t.Errorf("the service selects %v, and the pods have %v", m.service.Spec.Selector, pods)
	}
	if m.service.Spec.ClusterIP != core.ClusterIPNone {
		t.Error("the service has an address of its own")
	}
}

// engineSettings are those the other manifests have to agree with.
type engineSettings struct {
	Listen string
	Drain  string
	Admin  struct{ Listen string }
	Limits struct{ Time string }
}

func TestManifestsAgreeWithTheSettings(t *testing.T) {
	m := manifests(t)
	var s engineSettings
	if err := yaml.Unmarshal([]byte(m.settings.Data["pondwright.yaml"]), &s); err != nil {
		t.Fatal(err)
	}
	pod := m.deployment.Spec.Template.Spec
	engine := pod.Containers[0]
	ports := map[string]int32{}
	for _, p := range engine.Ports {
		ports[p.Name] = p.ContainerPort
	}
	if s.Listen != "0.0.0.0:4860" || ports["grpc"] != 4860 || s.Admin.Listen != "0.0.0.0:4861" || ports["operator"] != 4861 {
		t.Errorf("the engine listens on %s and %s, the pod has %v", s.Listen, s.Admin.Listen, ports)
	}
	for _, p := range m.service.Spec.Ports {
		if ports[p.TargetPort.String()] != p.Port {
			t.Errorf("port %s of the service leads to %s", p.Name, p.TargetPort.String())
		}
	}
	for i, port := range []int{4860, 4861} {
		if got := m.network.Spec.Ingress[i].Ports[0].Port; got == nil || *got != intstr.FromInt(port) {
			t.Errorf("the policy lets through %v, not %d", got, port)
		}
	}
	for name, p := range map[string]*core.Probe{"startup": engine.StartupProbe, "readiness": engine.ReadinessProbe, "liveness": engine.LivenessProbe} {
		if p == nil || p.GRPC == nil || p.GRPC.Port != ports["operator"] {
			t.Errorf("%s does not ask the operator's port by gRPC", name)
		}
	}
	drain, err := time.ParseDuration(s.Drain)
	if err != nil {
		t.Fatal(err)
	}
	limit, err := time.ParseDuration(s.Limits.Time)
	if err != nil {
		t.Fatal(err)
	}
	const lastWords = 5 * time.Second // what the server takes at most after the drain
	sleep := time.Duration(engine.Lifecycle.PreStop.Sleep.Seconds) * time.Second
	grace := time.Duration(*pod.TerminationGracePeriodSeconds) * time.Second
	if grace <= sleep+drain+lastWords {
		t.Errorf("the pod is killed after %v, and takes %v to stop", grace, sleep+drain+lastWords)
	}
	if drain <= limit {
		t.Errorf("a calculation may take %v, and the drain is %v", limit, drain)
	}
}

// The engine's own memory and that of one plugin are within what the container may have.
func TestMemoryIsWithinTheLimit(t *testing.T) {
	m := manifests(t)
	engine := m.deployment.Spec.Template.Spec.Containers[0]
	var own resource.Quantity
	for _, e := range engine.Env {
		if e.Name == "GOMEMLIMIT" { // MiB there is Mi here
			own = resource.MustParse(e.Value[:len(e.Value)-1])
		}
	}
	plugin := resource.MustParse("256Mi")
	if own.IsZero() {
		t.Fatal("no GOMEMLIMIT")
	}
	limit := engine.Resources.Limits.Memory()
	own.Add(plugin)
	if limit.Cmp(own) <= 0 {
		t.Errorf("the limit is %s, and engine and plugin may take %s", limit, &own)
	}
}

// The restricted level of the Pod Security Standards, as far as it asks for something to be set.
// Source: https://kubernetes.io/docs/concepts/security/pod-security-standards/
func TestPodIsRestricted(t *testing.T) {
	pod := manifests(t).deployment.Spec.Template.Spec
	engine := pod.Containers[0]
	no := func(b *bool) bool { return b != nil && !*b }
	yes := func(b *bool) bool { return b != nil && *b }
	for what, holds := range map[string]bool{
		"runs as root":                   yes(pod.SecurityContext.RunAsNonRoot) && *pod.SecurityContext.RunAsUser != 0,
		"may gain privileges":            no(engine.SecurityContext.AllowPrivilegeEscalation),
		"keeps capabilities":             len(engine.SecurityContext.Capabilities.Drop) == 1 && engine.SecurityContext.Capabilities.Drop[0] == "ALL" && len(engine.SecurityContext.Capabilities.Add) == 0,
		"has no seccomp profile":         pod.SecurityContext.SeccompProfile.Type == core.SeccompProfileTypeRuntimeDefault,
		"may write its root":             yes(engine.SecurityContext.ReadOnlyRootFilesystem),
		"has a token of the API":         no(pod.AutomountServiceAccountToken),
		"has variables of services":      no(pod.EnableServiceLinks),
		"is of the host":                 !pod.HostNetwork && !pod.HostPID && !pod.HostIPC,
		"more containers than are known": len(pod.Containers) == 1 && len(pod.InitContainers) == 0,
	} {
		if !holds {
			t.Error("the pod", what)
		}
	}
	mounted := map[string]bool{}
	for _, v := range pod.Volumes {
		mounted[v.Name] = true
		if v.HostPath != nil {
			t.Error(v.Name, "is of the host")
		}
	}
	for _, v := range engine.VolumeMounts {
		if !mounted[v.Name] {
			t.Error(v.Name, "is mounted, and is no volume")
		}
	}
}
