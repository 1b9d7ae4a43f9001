package main

import (
	"archive/zip"
	"os"
	"path/filepath"
)

// tooLarge remarks which of the scores that were written have more bytes than
// verify and find read.
func (p *plan) tooLarge(dir string, most int64) {
	for _, out := range p.files {
		if n := documentSize(filepath.Join(dir, filepath.FromSlash(out.name))); n > most {
			p.remark("note: %s has %d MiB; verify and find read scores of up to %d MiB, which --bars can make of it", out.name, n>>20, most>>20)
		}
	}
}

// documentSize is how many bytes a score has, unpacked; 0 for other files.
func documentSize(path string) int64 {
	switch filepath.Ext(path) {
	case ".musicxml":
		if info, err := os.Stat(path); err == nil {
			return info.Size()
		}
	case ".mxl":
		archive, err := zip.OpenReader(path)
		if err != nil {
			return 0
		}
		defer archive.Close()
		most := int64(0)
		for _, file := range archive.File {
			most = max(most, int64(file.UncompressedSize64))
		}
		return most
	}
	return 0
}
