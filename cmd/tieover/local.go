package main

import (
	"context"
	"errors"
	"fmt"
	"net"
	"net/http"
	"slices"
	"strconv"
	"time"
)

// local is a server for browsers on this machine only. It answers nobody who
// came by another host name, so that no page of somebody else can read it.
type local struct {
	port  int
	hosts []string
}

func newLocal(port int) local {
	l := local{port: port}
	for _, host := range []string{"127.0.0.1", "localhost"} {
		l.hosts = append(l.hosts, net.JoinHostPort(host, strconv.Itoa(port)))
		if port == 80 {
			l.hosts = append(l.hosts, host)
		}
	}
	return l
}

// refuses sets the headers of every answer, and answers who may not ask.
func (l local) refuses(w http.ResponseWriter, r *http.Request) bool {
	h := w.Header()
	h.Set("Cache-Control", "no-store")
	h.Set("X-Content-Type-Options", "nosniff")
	h.Set("X-Frame-Options", "DENY")
	h.Set("Cross-Origin-Resource-Policy", "same-origin")
	h.Set("Referrer-Policy", "no-referrer")
	if slices.Contains(l.hosts, r.Host) {
		return false
	}
	http.Error(w, "this page is for this machine only", http.StatusForbidden)
	return true
}

// sendPage answers with a page. A browser that has gone needs no answer.
func sendPage(w http.ResponseWriter, page []byte) {
	w.Header().Set("Content-Type", "text/html; charset=utf-8")
	w.Header().Set("Content-Length", strconv.Itoa(len(page)))
	_, _ = w.Write(page)
}

// listen opens a port of this machine, any that is free for 0.
func listen(port int) (net.Listener, int, error) {
	if port < 0 || port > 65535 {
		return nil, 0, usage("--port %d: ports go from 1 to 65535; 0 takes any that is free", port)
	}
	listener, err := net.Listen("tcp4", net.JoinHostPort("127.0.0.1", strconv.Itoa(port)))
	if err != nil {
		return nil, 0, fmt.Errorf("cannot listen on port %d: %w; choose another with --port", port, errors.Unwrap(err))
	}
	return listener, listener.Addr().(*net.TCPAddr).Port, nil
}

// serveUntil answers until the context ends. A request may take as long as
// reading to come; 0 is for ever.
func serveUntil(ctx context.Context, listener net.Listener, handler http.Handler, reading time.Duration) error {
	server := &http.Server{Handler: handler, ReadHeaderTimeout: 5 * time.Second, ReadTimeout: reading, IdleTimeout: time.Minute, MaxHeaderBytes: 16 << 10,
		BaseContext: func(net.Listener) context.Context { return ctx }}
	go func() {
		<-ctx.Done()
		server.Close()
	}()
	if err := server.Serve(listener); !errors.Is(err, http.ErrServerClosed) {
		return err
	}
	return nil
}
