package main

import (
	"fmt"
	"net/http"
	"sync"
)

// viewer answers browsers on this machine: the page at /, and at /changes a
// stream that says when there is a new one. It answers nothing else.
type viewer struct {
	local

	mu      sync.Mutex
	page    []byte
	version string
	changed chan struct{} // closed when the page is replaced
}

func newViewer(port int) *viewer { return &viewer{local: newLocal(port), changed: make(chan struct{})} }

// show replaces the page. Version names it, and is written in it.
func (v *viewer) show(page []byte, version string) {
	v.mu.Lock()
	defer v.mu.Unlock()
	v.page, v.version = page, version
	close(v.changed)
	v.changed = make(chan struct{})
}

func (v *viewer) now() (page []byte, version string, changed <-chan struct{}) {
	v.mu.Lock()
	defer v.mu.Unlock()
	return v.page, v.version, v.changed
}

func (v *viewer) ServeHTTP(w http.ResponseWriter, r *http.Request) {
	if v.refuses(w, r) {
		return
	}
	switch {
	case r.Method != http.MethodGet && r.Method != http.MethodHead:
		w.Header().Set("Allow", "GET, HEAD")
		http.Error(w, "the page can only be read", http.StatusMethodNotAllowed)
	case r.RequestURI == "/":
		page, _, _ := v.now()
		sendPage(w, page)
	case r.RequestURI == "/changes" && r.Method == http.MethodGet:
		v.tell(w, r)
	default:
		http.Error(w, "there is nothing here", http.StatusNotFound)
	}
}

// tell says which page is the newest, and again whenever there is a new one,
// until the browser goes. A page reloads itself when it is not the newest, even
// if that changed before it could listen.
func (v *viewer) tell(w http.ResponseWriter, r *http.Request) {
	out := http.NewResponseController(w)
	w.Header().Set("Content-Type", "text/event-stream")
	for {
		_, version, changed := v.now()
		fmt.Fprintf(w, "data: %s\n\n", version)
		if out.Flush() != nil {
			return
		}
		select {
		case <-r.Context().Done():
			return
		case <-changed:
		}
	}
}
