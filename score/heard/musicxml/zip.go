package musicxml

import (
	"archive/zip"
	"bufio"
	"bytes"
	"encoding/binary"
	"encoding/xml"
	"io"
	"unicode/utf16"

	"golang.org/x/text/encoding/charmap"
)

// unpack returns the score inside a compressed file: the first rootfile that
// its container names.
func unpack(data []byte) ([]byte, error) {
	archive, err := zip.NewReader(bytes.NewReader(data), int64(len(data)))
	if err != nil {
		return nil, failed(0, "the .mxl cannot be opened: %v", err)
	}
	if n := len(archive.File); n > maxEntries {
		return nil, failed(0, "the .mxl holds %d files; at most %d are read", n, maxEntries)
	}
	container, err := entry(archive, "META-INF/container.xml", maxContainer)
	if err != nil {
		return nil, err
	}
	var contents struct {
		Rootfiles []struct {
			Path string `xml:"full-path,attr"`
		} `xml:"rootfiles>rootfile"`
	}
	if err := xml.Unmarshal(container, &contents); err != nil {
		return nil, failed(0, "META-INF/container.xml cannot be read: %v", err)
	}
	if len(contents.Rootfiles) == 0 || contents.Rootfiles[0].Path == "" {
		return nil, failed(0, "META-INF/container.xml names no score")
	}
	score, err := entry(archive, contents.Rootfiles[0].Path, MaxBytes)
	if err == nil && bytes.HasPrefix(score, []byte("PK\x03\x04")) {
		err = failed(0, "the score in the .mxl is itself compressed")
	}
	return score, err
}

// maxContainer is more than any container needs.
const maxContainer = 1 << 20

// entry returns one file of the archive, at most so many bytes. Declared sizes are not
// trusted: what comes out is counted while it comes.
func entry(archive *zip.Reader, name string, most int64) ([]byte, error) {
	for _, file := range archive.File {
		if file.Name != name {
			continue
		}
		packed := int64(file.CompressedSize64)
		limit := most
		if packed < most/maxRatio {
			limit = packed * maxRatio
		}
		stream, err := file.Open()
		if err != nil {
			return nil, failed(0, "%q in the .mxl cannot be opened: %v", name, err)
		}
		defer stream.Close()
		data, err := io.ReadAll(io.LimitReader(stream, limit+1))
		switch {
		case err != nil:
			return nil, failed(0, "%q in the .mxl cannot be unpacked: %v", name, err)
		case int64(len(data)) > limit && limit == most:
			return nil, failed(0, "%q in the .mxl unpacks to more than %d MiB", name, most>>20)
		case int64(len(data)) > limit:
			return nil, failed(0, "%q in the .mxl unpacks to more than %d times its size", name, maxRatio)
		}
		return data, nil
	}
	return nil, failed(0, "the .mxl has no %q", name)
}

// textOf returns the score's text in UTF-8, of a compressed file the score inside
// it. Other encodings than UTF-16 with a byte order mark are left to the XML
// declaration. A plain file is not read ahead.
func textOf(r io.Reader) (io.Reader, error) {
	in := bufio.NewReader(r)
	start, _ := in.Peek(4)
	convert := fromUTF16
	switch {
	case bytes.HasPrefix(start, []byte("PK\x03\x04")):
		convert = unpack
	case bytes.HasPrefix(start, []byte{0xFE, 0xFF}), bytes.HasPrefix(start, []byte{0xFF, 0xFE}):
	case bytes.HasPrefix(start, []byte{0xEF, 0xBB, 0xBF}):
		_, _ = in.Discard(3)
		return in, nil
	default:
		return in, nil
	}
	data, err := io.ReadAll(io.LimitReader(in, MaxBytes+1))
	if err == nil && len(data) > MaxBytes {
		err = failed(0, "the file is larger than %d MiB", MaxBytes>>20)
	}
	if err != nil {
		return nil, err
	}
	if data, err = convert(data); err != nil {
		return nil, err
	}
	return textOf(bytes.NewReader(data))
}

// fromUTF16 turns UTF-16 with a byte order mark into UTF-8 without one.
func fromUTF16(data []byte) ([]byte, error) {
	var order binary.ByteOrder = binary.BigEndian
	if data[0] == 0xFF {
		order = binary.LittleEndian
	}
	data = data[2:]
	if len(data)%2 != 0 {
		return nil, failed(0, "the file is cut off inside a UTF-16 character")
	}
	units := make([]uint16, len(data)/2)
	for i := range units {
		units[i] = order.Uint16(data[2*i:])
	}
	text := string(utf16.Decode(units))
	if len(text) > MaxBytes {
		return nil, failed(0, "the file is larger than %d MiB", MaxBytes>>20)
	}
	return []byte(text), nil
}

// charset serves the encodings that an XML declaration may name. UTF-16 has
// been decoded before, so its name is taken for what it has become.
func charset(name string, in io.Reader) (io.Reader, error) {
	switch name {
	case "utf-16", "UTF-16", "us-ascii", "US-ASCII", "ascii":
		return in, nil
	case "iso-8859-1", "ISO-8859-1", "latin1", "LATIN1":
		return charmap.ISO8859_1.NewDecoder().Reader(in), nil
	}
	return nil, failed(1, "the encoding %q cannot be read; save the file as UTF-8", name)
}
