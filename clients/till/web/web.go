// Package web is the till's page: a question at the counter, kits that answer it, a check of what the customer names, something
// in place of what is out of stock, and a slip to take home. It keeps nothing: an address holds everything that was typed, so that
// going back, asking again and coming back tomorrow all work, and so does a till that was switched off in between.
package web

import (
	"bytes"
	"embed"
	"fmt"
	"html/template"
	"io/fs"
	"log/slog"
	"net/http"
	"time"

	"google.golang.org/grpc"

	"example.com/pondwright/clients/till/form"
)

// Config is what the page needs.
type Config struct {
	Engine *grpc.ClientConn
	Logger *slog.Logger
	// Currency to choose from, where catalogues have prices in more than one. ISO 4217.
	Currency string
	// Energy is the price of a kWh that stands in the form to begin with. Empty leaves it to be asked.
	Energy string
	// Today dates the slip.
	Today func() time.Time
}

type till struct {
	Config
	pages map[string]*template.Template
}

//go:embed templates
var templates embed.FS

//go:embed static
var static embed.FS

// New makes the handler of the whole page.
func New(c Config) (http.Handler, error) {
	if c.Logger == nil {
		c.Logger = slog.New(slog.DiscardHandler)
	}
	if c.Today == nil {
		c.Today = time.Now
	}
	t := &till{Config: c, pages: map[string]*template.Template{}}
	for _, name := range []string{"kits", "check", "swap", "slip"} {
		made, err := template.New(name).Funcs(funcs).ParseFS(templates, "templates/base.html", "templates/part_*.html", "templates/"+name+".html")
		if err != nil {
			return nil, fmt.Errorf("page %s: %w", name, err)
		}
		t.pages[name] = made
	}
	files, err := fs.Sub(static, "static")
	if err != nil {
		return nil, err
	}
	mux := http.NewServeMux()
	mux.HandleFunc("GET /{$}", t.ask)
	mux.HandleFunc("GET /kits", t.kits)
	mux.HandleFunc("GET /units", t.units)
	mux.HandleFunc("GET /check", t.check)
	mux.HandleFunc("GET /swap", t.swap)
	mux.HandleFunc("GET /slip", t.slip)
	mux.HandleFunc("GET /recall", t.recall)
	mux.Handle("GET /static/", http.StripPrefix("/static/", http.FileServerFS(files)))
	return headed(mux), nil
}

// policy lets a page load what this server serves, and nothing from anywhere else.
const policy = "default-src 'none'; style-src 'self'; script-src 'self'; img-src 'self'; form-action 'self'; base-uri 'none'; frame-ancestors 'none'"

func headed(next http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		h := w.Header()
		h.Set("Content-Security-Policy", policy)
		h.Set("X-Content-Type-Options", "nosniff")
		h.Set("Referrer-Policy", "no-referrer")
		h.Set("Cache-Control", "no-cache")
		next.ServeHTTP(w, r)
	})
}

// A page is what every template is given.
type page struct {
	Title  string
	Values form.Values
	System form.System
	Faults form.Faults
	// Set names the items that were chosen, by their kind.
	Set set
	// Trouble is what kept the engine from answering. Nil where it did.
	Trouble *trouble
	// Code that was typed, and what is wrong with it.
	Code, CodeFault string
	// Here is the address of this page, for asking again, and Query the part of it that holds what was said of the pond.
	Here     template.URL
	Query    template.URL
	Currency string

	Answer *answer
	Check  *checked
	Swap   *swapped
	Slip   *slip
}

func (t *till) page(r *http.Request, title string) page {
	v := form.FromQuery(r.URL.Query())
	return page{Title: title, Values: v, System: v.System(), Set: setFrom(r.URL.Query()), Here: template.URL(r.URL.RequestURI()), Query: template.URL(v.Query().Encode()), Currency: t.Currency}
}

// show writes a page whole or not at all.
func (t *till) show(w http.ResponseWriter, status int, name string, p page) {
	var out bytes.Buffer
	if err := t.pages[name].ExecuteTemplate(&out, "base", p); err != nil {
		t.Logger.Error("page", "name", name, "error", err)
		http.Error(w, "This page could not be made. Go back and try again.", http.StatusInternalServerError)
		return
	}
	w.Header().Set("Content-Type", "text/html; charset=utf-8")
	w.WriteHeader(status)
	_, _ = w.Write(out.Bytes()) // the reader has gone
}
