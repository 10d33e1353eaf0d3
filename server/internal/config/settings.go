// Package config is what an operator may say: one YAML file, the environment and flags. A flag goes before the environment,
// the environment before the file, and the file before what holds where nothing is said.
package config

import "time"

// Settings are everything that can be set. Each plain setting has one name in three forms: tls.certificate in the file,
// PONDWRIGHT_TLS_CERTIFICATE in the environment, --tls-certificate as a flag. The lists are for the file alone.
type Settings struct {
	Listen    string    `yaml:"listen" default:"127.0.0.1:4860" placeholder:"HOST:PORT" help:"Where to listen for gRPC."`
	Anyone    bool      `yaml:"anyone" help:"Serve callers who have not said who they are, although others than this machine can reach the port."`
	Drain     Duration  `yaml:"drain" default:"20s" help:"How long calls in flight may take to finish when the server is told to stop."`
	HTTP      HTTP      `yaml:"http" embed:"" prefix:"http-"`
	Admin     Admin     `yaml:"admin" embed:"" prefix:"admin-"`
	Log       Log       `yaml:"log" embed:"" prefix:"log-"`
	TLS       TLS       `yaml:"tls" embed:"" prefix:"tls-"`
	Limits    Limits    `yaml:"limits" embed:"" prefix:"limits-"`
	Telemetry Telemetry `yaml:"telemetry" embed:"" prefix:"telemetry-"`
	Audit     Audit     `yaml:"audit" embed:"" prefix:"audit-"`

	ClientsFile Path        `yaml:"clients_file" placeholder:"FILE" help:"A YAML file with a list named clients, read again whenever it changes."`
	Clients     []Client    `yaml:"clients" kong:"-"`
	Catalogues  []Catalogue `yaml:"catalogues" kong:"-"`
}

// HTTP is the listener for JSON over HTTP. It has the certificates, the clients and the limits of the other.
type HTTP struct {
	Listen string `yaml:"listen" placeholder:"HOST:PORT" help:"Where to listen for JSON over HTTP as well. Left out, nowhere."`
}

// Admin is the private port for the operator.
type Admin struct {
	Listen string `yaml:"listen" placeholder:"HOST:PORT" help:"Where to serve metrics, health, profiles and channelz to the operator, without TLS. Left out, nowhere."`
	Public bool   `yaml:"public" help:"Let the operator's port be reached from other machines."`
}

// Log says what is written to standard error.
type Log struct {
	Format string `yaml:"format" enum:"text,json" default:"text" help:"Form of the log: text or json."`
	Level  string `yaml:"level" enum:"debug,info,warn,error" default:"info" help:"The least level that is logged."`
	Calls  string `yaml:"calls" enum:"none,failed,all" default:"failed" help:"Which calls are logged: none, failed or all."`
}

// TLS says who this server is and whom it trusts.
type TLS struct {
	Certificate Path     `yaml:"certificate" placeholder:"FILE" help:"PEM file of the server's certificate and its chain."`
	Key         Path     `yaml:"key" placeholder:"FILE" help:"PEM file of its private key."`
	ClientCA    Path     `yaml:"client_ca" placeholder:"FILE" help:"PEM file of the authorities whose client certificates are taken; every caller then needs one."`
	Reread      Duration `yaml:"reread" default:"10s" help:"How often certificates and the clients file are looked at for changes."`
	InTheClear  bool     `yaml:"in_the_clear" help:"Listen without TLS although others than this machine can reach the port."`
}

// Limits keep one caller from taking what is for all.
type Limits struct {
	RequestBytes       Bytes    `yaml:"request_bytes" default:"4MiB" help:"Largest request."`
	Depth              int      `yaml:"depth" default:"64" help:"How deep the messages of a request may lie in one another."`
	ListLength         int      `yaml:"list_length" default:"0" help:"Most entries of any one list in a request; 0 leaves it to the rules of each list."`
	Calls              int      `yaml:"calls" default:"256" help:"Calls in hand at once, of all clients together."`
	CallsPerClient     int      `yaml:"calls_per_client" default:"64" help:"Calls in hand at once of one client."`
	RatePerClient      float64  `yaml:"rate_per_client" default:"0" help:"Calls a second of one client in the long run; 0 is without limit."`
	BurstPerClient     int      `yaml:"burst_per_client" default:"100" help:"Calls a client may make at once before its rate counts."`
	Connections        int      `yaml:"connections" default:"1024" help:"Connections at once; more wait."`
	CallsPerConnection int      `yaml:"calls_per_connection" default:"256" help:"Calls at once on one connection; more wait at the client."`
	Time               Duration `yaml:"time" default:"30s" help:"How long any calculation may take."`
	ConnectionAge      Duration `yaml:"connection_age" default:"30m" help:"When a connection is asked to open anew, so that clients find new replicas."`
}

// Telemetry is for collectors that speak OTLP.
type Telemetry struct {
	OTLP     string   `yaml:"otlp" placeholder:"URL" help:"Collector to send traces and metrics to, such as http://127.0.0.1:4317. Left out, none are made."`
	Sample   float64  `yaml:"sample" default:"0.01" help:"Share of calls that are traced where the caller has not decided, from 0 to 1."`
	Interval Duration `yaml:"interval" default:"30s" help:"How often metrics are sent."`
}

// Audit is the log of what was asked and answered, each entry bound to the one before.
type Audit struct {
	Folder  Path  `yaml:"folder" placeholder:"FOLDER" help:"Folder of the audit log. Left out, none is kept."`
	Answers bool  `yaml:"answers" default:"true" negatable:"" help:"Keep whole answers, so that a replay can say what differs, and not only that something does."`
	Rotate  Bytes `yaml:"rotate" default:"64MiB" help:"Size at which the next file is begun."`
	Keep    int   `yaml:"keep" default:"0" help:"Files to keep; 0 keeps all."`
	Sync    bool  `yaml:"sync" help:"Wait for the disk after each entry."`
}

// A Client is a caller who is known by a token, a certificate or both.
type Client struct {
	Name string `yaml:"name"`
	// SHA-256 of its token in hexadecimal; the server's command token makes both.
	TokenSHA256 Secret `yaml:"token_sha256,omitempty"`
	// Common name of its certificate.
	Certificate string   `yaml:"certificate,omitempty"`
	Roles       []string `yaml:"roles"`
	// In the place of limits.rate_per_client, limits.burst_per_client and limits.calls_per_client.
	Rate  float64 `yaml:"rate,omitempty"`
	Burst int     `yaml:"burst,omitempty"`
	Calls int     `yaml:"calls,omitempty"`
}

// A Catalogue is one merchant's range and the plugin that gives it.
type Catalogue struct {
	Name string `yaml:"name"`
	// A folder of CSV files or an xlsx workbook; or else a program of the merchant's own with its arguments.
	From    Path     `yaml:"from,omitempty"`
	Program Path     `yaml:"program,omitempty"`
	Args    []string `yaml:"args,omitempty"`
	// SHA-256 of the program in hexadecimal.
	SHA256 string `yaml:"sha256,omitempty"`
	// Names of variables it may see, or NAME=value.
	Env []string `yaml:"env,omitempty"`

	StartTimeout Duration `yaml:"start_timeout,omitempty"`
	CallTimeout  Duration `yaml:"call_timeout,omitempty"`
	LiveTimeout  Duration `yaml:"live_timeout,omitempty"`
	Memory       Bytes    `yaml:"memory,omitempty"`
	MaxItems     int      `yaml:"max_items,omitempty"`
	Refresh      Duration `yaml:"refresh,omitempty"`  // how often it is read again; 0 is only when told or when a file changes
	Watch        []Path   `yaml:"watch,omitempty"`    // files and folders beside from that have it read again when they change
	Priority     int      `yaml:"priority,omitempty"` // the higher goes first where two offers are equal in all else
	PlainSocket  bool     `yaml:"plain_socket,omitempty"`
}

// Roles that a client may have.
const (
	Calculate = "calculate" // ask for calculations and read the catalogues
	Reload    = "reload"    // have the catalogues read again
	Operate   = "operate"   // see what the API is by reflection
)

// Duration is written like 20s, 5m or 1h30m.
type Duration = time.Duration
