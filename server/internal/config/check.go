package config

import (
	"encoding/hex"
	"errors"
	"fmt"
	"net"
	"net/netip"
	"os"
	"slices"
	"strconv"
	"strings"

	"example.com/pondwright/server/internal/catalogue"
)

// Check lists everything that cannot be meant, each with the setting to change.
func (s *Settings) Check() error {
	var faults []error
	faults = append(faults, s.checkListeners()...)
	faults = append(faults, s.TLS.check()...)
	faults = append(faults, s.Limits.check()...)
	faults = append(faults, s.Telemetry.check()...)
	faults = append(faults, checkClients(s.Clients)...)
	faults = append(faults, checkCatalogues(s.Catalogues)...)
	switch {
	case s.Drain <= 0:
		faults = append(faults, fault("drain", "must be longer than nothing"))
	case s.Audit.Rotate < 1<<16:
		faults = append(faults, fault("audit.rotate", "must be 64KiB or more"))
	case s.Audit.Keep < 0:
		faults = append(faults, fault("audit.keep", "cannot be below 0"))
	}
	return errors.Join(faults...)
}

func fault(setting, format string, args ...any) error {
	return fmt.Errorf("%s: %s", setting, fmt.Sprintf(format, args...))
}

// KnowsCallers says whether callers have to say who they are.
func (s *Settings) KnowsCallers() bool { return len(s.Clients) > 0 || s.ClientsFile != "" }

// checkListeners refuses what would serve strangers by oversight.
func (s *Settings) checkListeners() []error {
	var faults []error
	for _, at := range []struct {
		name, address string
		admin         bool
	}{{"listen", s.Listen, false}, {"http.listen", s.HTTP.Listen, false}, {"admin.listen", s.Admin.Listen, true}} {
		if at.address == "" && at.name != "listen" {
			continue
		}
		private, err := Loopback(at.address)
		switch {
		case err != nil:
			faults = append(faults, fault(at.name, "%v", err))
		case private:
		case at.admin && !s.Admin.Public:
			faults = append(faults, fault(at.name, "%s can be reached from other machines: listen on 127.0.0.1, or set admin.public if the network keeps strangers off it", at.address))
		case at.admin:
		default:
			if s.TLS.Certificate == "" && !s.TLS.InTheClear {
				faults = append(faults, fault(at.name, "%s can be reached from other machines: set tls.certificate and tls.key, or tls.in_the_clear if something in front of the server sees to it", at.address))
			}
			if !s.KnowsCallers() && s.TLS.ClientCA == "" && !s.Anyone {
				faults = append(faults, fault(at.name, "%s can be reached from other machines: list clients, set tls.client_ca, or set anyone if everyone who reaches it may calculate", at.address))
			}
		}
	}
	return faults
}

// Loopback says whether an address can be reached from this machine alone.
func Loopback(address string) (bool, error) {
	host, port, err := net.SplitHostPort(address)
	if err != nil {
		return false, fmt.Errorf("%q is not HOST:PORT", address)
	}
	if _, err := strconv.ParseUint(port, 10, 16); err != nil {
		return false, fmt.Errorf("%q is not a port", port)
	}
	if host == "localhost" {
		return true, nil
	}
	ip, err := netip.ParseAddr(host)
	return err == nil && ip.IsLoopback(), nil
}

func (t TLS) check() []error {
	var faults []error
	if (t.Certificate == "") != (t.Key == "") {
		faults = append(faults, fault("tls", "certificate and key go together"))
	}
	if t.ClientCA != "" && t.Certificate == "" {
		faults = append(faults, fault("tls.client_ca", "needs tls.certificate and tls.key"))
	}
	if t.Reread <= 0 {
		faults = append(faults, fault("tls.reread", "must be longer than nothing"))
	}
	return faults
}

func (l Limits) check() []error {
	var faults []error
	for _, n := range []struct {
		name         string
		value, least float64
	}{
		{"request_bytes", float64(l.RequestBytes), 1024}, {"depth", float64(l.Depth), 8}, {"list_length", float64(l.ListLength), 0},
		{"calls", float64(l.Calls), 1}, {"calls_per_client", float64(l.CallsPerClient), 1}, {"rate_per_client", l.RatePerClient, 0},
		{"burst_per_client", float64(l.BurstPerClient), 1}, {"connections", float64(l.Connections), 1},
		{"calls_per_connection", float64(l.CallsPerConnection), 1}, {"time", l.Time.Seconds(), 1e-3},
		{"connection_age", l.ConnectionAge.Seconds(), 1},
	} {
		if !(n.value >= n.least) {
			faults = append(faults, fault("limits."+n.name, "is %v and cannot be less than %v", n.value, n.least))
		}
	}
	return faults
}

func (t Telemetry) check() []error {
	var faults []error
	if !(t.Sample >= 0 && t.Sample <= 1) {
		faults = append(faults, fault("telemetry.sample", "is %v and must be from 0 to 1", t.Sample))
	}
	if t.Interval <= 0 {
		faults = append(faults, fault("telemetry.interval", "must be longer than nothing"))
	}
	if t.OTLP != "" && !strings.HasPrefix(t.OTLP, "http://") && !strings.HasPrefix(t.OTLP, "https://") {
		faults = append(faults, fault("telemetry.otlp", "%q must begin with http:// or https://", t.OTLP))
	}
	return faults
}

// CheckClients lists everything that is wrong with a list of clients.
func CheckClients(clients []Client) error { return errors.Join(checkClients(clients)...) }

func checkClients(clients []Client) []error {
	var faults []error
	names, tokens, certificates := map[string]bool{}, map[Secret]bool{}, map[string]bool{}
	for i, c := range clients {
		at := fmt.Sprintf("clients[%d] %q", i, c.Name)
		say := func(format string, args ...any) { faults = append(faults, fault(at, format, args...)) }
		if c.Name == "" || names[c.Name] {
			say("needs a name of its own")
		}
		if c.TokenSHA256 == "" && c.Certificate == "" {
			say("needs token_sha256, certificate or both")
		}
		if c.TokenSHA256 != "" && (!isSHA256(string(c.TokenSHA256)) || tokens[c.TokenSHA256]) {
			say("token_sha256 must be the 64 hexadecimal digits of a token of its own")
		}
		if c.Certificate != "" && certificates[c.Certificate] {
			say("certificate is that of another client")
		}
		if len(c.Roles) == 0 {
			say("needs roles: %s, %s or %s", Calculate, Reload, Operate)
		}
		for _, r := range c.Roles {
			if !slices.Contains([]string{Calculate, Reload, Operate}, r) {
				say("there is no role %q; there are %s, %s and %s", r, Calculate, Reload, Operate)
			}
		}
		if !(c.Rate >= 0) || c.Burst < 0 || c.Calls < 0 {
			say("rate, burst and calls cannot be below 0")
		}
		names[c.Name], tokens[c.TokenSHA256], certificates[c.Certificate] = true, true, true
	}
	return faults
}

func isSHA256(text string) bool {
	sum, err := hex.DecodeString(text)
	return err == nil && len(sum) == 32
}

func checkCatalogues(all []Catalogue) []error {
	var faults []error
	for i, c := range all {
		at := fmt.Sprintf("catalogues[%d] %q", i, c.Name)
		say := func(format string, args ...any) { faults = append(faults, fault(at, format, args...)) }
		if (c.From == "") == (c.Program == "") {
			say("needs either from, a folder or workbook, or program")
		}
		if c.Program == "" && len(c.Args) > 0 {
			say("args go with program")
		}
		if c.SHA256 != "" && !isSHA256(c.SHA256) {
			say("sha256 must be 64 hexadecimal digits")
		}
		if c.StartTimeout < 0 || c.CallTimeout < 0 || c.LiveTimeout < 0 || c.Memory < 0 || c.MaxItems < 0 {
			say("limits cannot be below 0")
		}
		for _, file := range append([]Path{c.From, c.Program}, c.Watch...) {
			if _, err := os.Stat(string(file)); file != "" && err != nil {
				say("%v", err)
			}
		}
	}
	sources, err := (&Settings{Catalogues: all}).Sources()
	if err != nil {
		faults = append(faults, err)
	}
	for _, text := range catalogue.CheckSources(sources) {
		faults = append(faults, errors.New("catalogues: "+text))
	}
	return faults
}
