package room

import (
	"bytes"
	"encoding/json"
	"io/fs"
	"net/http"
	"net/url"
	"path"
	"regexp"
	"strconv"
	"strings"

	"fettle/store"
)

// handler answers everything that a browser asks for.
func (r *Room) handler() http.Handler {
	mux := http.NewServeMux()
	mux.HandleFunc("GET /{$}", r.home)
	mux.HandleFunc("POST /join", r.join)
	mux.HandleFunc("POST /leave", r.leave)
	mux.HandleFunc("POST /code", r.in(r.changeCode))
	mux.HandleFunc("POST /rooms", r.in(r.newRoom))
	mux.HandleFunc("GET /room/{id}", r.in(r.chat))
	mux.HandleFunc("GET /room/{id}/earlier", r.in(r.earlier))
	mux.HandleFunc("GET /room/{id}/live", r.in(r.live))
	mux.HandleFunc("POST /room/{id}/say", r.in(r.say))
	mux.HandleFunc("POST /room/{id}/photo", r.in(r.photo))
	mux.HandleFunc("POST /room/{id}/list", r.in(r.list))
	mux.HandleFunc("POST /room/{id}/message/{entry}", r.in(r.edit))
	mux.HandleFunc("GET /room/{id}/door", r.in(r.doorPage))
	mux.HandleFunc("GET /room/{id}/{page}", r.in(r.view))
	mux.HandleFunc("GET /photo/{name}", r.in(r.showPhoto))
	mux.HandleFunc("GET /drawing/{entry}/{name}", r.in(r.showDrawing))
	mux.HandleFunc("GET /drawing/room/{id}/{section}/{name}", r.in(r.showPlanDrawing))
	mux.HandleFunc("GET /static/{name}", r.static)
	mux.HandleFunc("GET /sw.js", r.worker)
	mux.HandleFunc("GET /manifest.webmanifest", r.manifest)
	return r.guarded(http.NewCrossOriginProtection().Handler(mux))
}

var plainHost = regexp.MustCompile(`^[A-Za-z0-9.:\[\]-]+$`)

// guarded sets what every page is allowed to do: talk to us, and to nobody else.
func (r *Room) guarded(next http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, req *http.Request) {
		if !plainHost.MatchString(req.Host) {
			http.Error(w, "no such place", http.StatusBadRequest)
			return
		}
		h := w.Header()
		// Some browsers don't count a WebSocket as 'self'.
		h.Set("Content-Security-Policy", "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' blob: data:; "+
			"connect-src 'self' ws://"+req.Host+" wss://"+req.Host+"; manifest-src 'self'; worker-src 'self'; "+
			"form-action 'self'; base-uri 'none'; frame-ancestors 'none'")
		h.Set("X-Content-Type-Options", "nosniff")
		h.Set("Referrer-Policy", "same-origin") // without any, browsers hide the origin of our own forms too
		h.Set("Permissions-Policy", "geolocation=(), microphone=()")
		h.Set("Cross-Origin-Opener-Policy", "same-origin")
		h.Set("Cross-Origin-Resource-Policy", "same-origin")
		h.Set("Cache-Control", "no-store")
		next.ServeHTTP(w, req)
	})
}

// visit is somebody who is in, and the room that they are in.
type visit struct {
	Person  person
	Project store.Project
	Demo    bool
	Build   string
	Now     int64 // our clock, in ms
}

// in lets only those through who came in, and finds their room.
func (r *Room) in(next func(http.ResponseWriter, *http.Request, visit)) http.HandlerFunc {
	return func(w http.ResponseWriter, req *http.Request) {
		p, ok := r.door.who(req)
		if !ok {
			r.outside(w, req)
			return
		}
		v := visit{Person: p, Demo: r.cfg.Demo, Build: r.build, Now: r.cfg.Now().UnixMilli()}
		if id := req.PathValue("id"); id != "" {
			var err error
			if v.Project, err = r.known(req, number(id)); err != nil {
				http.Error(w, "There is no such room.", http.StatusNotFound)
				return
			}
		}
		next(w, req, v)
	}
}

func (r *Room) known(req *http.Request, id int64) (p store.Project, err error) {
	err = r.store.Read(req.Context(), func(tx *store.Tx) error {
		p, err = tx.ProjectByID(id)
		if id == store.NoProject {
			err = store.ErrNotFound
		}
		return err
	})
	return p, err
}

// outside answers somebody who is not in: a page with the door, a script with the status.
func (r *Room) outside(w http.ResponseWriter, req *http.Request) {
	if req.Method == http.MethodGet && strings.Contains(req.Header.Get("Accept"), "text/html") {
		http.Redirect(w, req, "/?to="+url.QueryEscape(req.URL.Path), http.StatusSeeOther)
		return
	}
	r.fail(w, req, http.StatusUnauthorized, "You are not in the room any more. Come in by the code.")
}

// fail tells a script why not; a page that works without one gets the sentence.
func (r *Room) fail(w http.ResponseWriter, req *http.Request, status int, sentence string) {
	if strings.Contains(req.Header.Get("Accept"), "text/html") {
		http.Error(w, sentence, status)
		return
	}
	writeJSON(w, status, map[string]string{"error": sentence})
}

func writeJSON(w http.ResponseWriter, status int, v any) {
	w.Header().Set("Content-Type", "application/json")
	w.WriteHeader(status)
	_ = json.NewEncoder(w).Encode(v) // the other end is gone, then
}

// show writes a page, whole or not at all.
func (r *Room) show(w http.ResponseWriter, status int, name string, data any) {
	var b bytes.Buffer
	if err := layouts.ExecuteTemplate(&b, name, data); err != nil {
		r.cfg.Logger.Error("a page cannot be shown", "page", name, "error", err)
		http.Error(w, "That page cannot be shown just now.", http.StatusInternalServerError)
		return
	}
	w.Header().Set("Content-Type", "text/html; charset=utf-8")
	w.WriteHeader(status)
	_, _ = w.Write(b.Bytes())
}

// trouble answers what went wrong on our side, or was refused.
func (r *Room) trouble(w http.ResponseWriter, req *http.Request, err error) {
	text, status := sentence(err)
	if status != http.StatusUnprocessableEntity {
		r.cfg.Logger.Error("the room could not do something", "path", req.URL.Path, "error", err)
	}
	r.fail(w, req, status, text)
}

// number reads an id; what is none is 0, which nothing has.
func number(text string) int64 {
	n, err := strconv.ParseInt(text, 10, 64)
	if err != nil {
		return 0
	}
	return n
}

var kinds = map[string]string{".js": "text/javascript; charset=utf-8", ".css": "text/css; charset=utf-8", ".svg": "image/svg+xml", ".png": "image/png"}

// static gives the parts of the shell, which change only with the program.
func (r *Room) static(w http.ResponseWriter, req *http.Request) {
	name := req.PathValue("name")
	var data []byte
	var err error
	if draw, ok := icons[name]; ok {
		data, err = draw()
	} else {
		data, err = fs.ReadFile(shell, "static/"+name)
	}
	kind := kinds[path.Ext(name)]
	if err != nil || kind == "" {
		http.NotFound(w, req)
		return
	}
	w.Header().Set("Content-Type", kind)
	w.Header().Set("Cache-Control", "no-cache")
	tag := `"` + r.build + `"`
	w.Header().Set("ETag", tag)
	if req.Header.Get("If-None-Match") == tag {
		w.WriteHeader(http.StatusNotModified)
		return
	}
	_, _ = w.Write(data)
}

// worker gives the service worker, which carries the version in its own text: that is how a
// browser notices that there is a new one.
func (r *Room) worker(w http.ResponseWriter, req *http.Request) {
	text, err := fs.ReadFile(shell, "static/sw.js")
	if err != nil {
		http.NotFound(w, req)
		return
	}
	w.Header().Set("Content-Type", kinds[".js"])
	_, _ = w.Write(bytes.ReplaceAll(text, []byte("BUILD"), []byte(r.build)))
}

func (r *Room) manifest(w http.ResponseWriter, _ *http.Request) {
	w.Header().Set("Content-Type", "application/manifest+json")
	_ = json.NewEncoder(w).Encode(map[string]any{
		"name": "fettle", "short_name": "fettle", "start_url": "/", "scope": "/", "display": "standalone",
		"description":      "The chat of two people who fit out something that isn’t square",
		"background_color": "#faf8f3", "theme_color": "#161513",
		"icons": []map[string]string{
			{"src": "/static/icon.svg", "sizes": "any", "type": "image/svg+xml"},
			{"src": "/static/icon-192.png", "sizes": "192x192", "type": "image/png", "purpose": "any maskable"},
			{"src": "/static/icon-512.png", "sizes": "512x512", "type": "image/png", "purpose": "any maskable"},
		},
	})
}
