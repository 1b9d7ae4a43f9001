package musicxml

import (
	"archive/zip"
	"hash/crc32"
	"io"

	"tieover/layout/sheet"
)

// Names and media types of the compressed form, from the standard's
// description of .mxl files.
const (
	mxlType      = "application/vnd.recordare.musicxml"
	musicxmlType = "application/vnd.recordare.musicxml+xml"
	rootFile     = "score.musicxml"
	container    = `<?xml version="1.0" encoding="UTF-8"?>
<container>
  <rootfiles>
    <rootfile full-path="` + rootFile + `" media-type="` + musicxmlType + `"/>
  </rootfiles>
</container>
`
)

// WriteCompressed writes the sheet as an .mxl container with one document in
// it. Its entries carry no dates, so the same sheet gives the same bytes. It
// fails as Write does.
func WriteCompressed(w io.Writer, laid *sheet.Sheet, o Options) error {
	archive := zip.NewWriter(w)
	if err := addMediaType(archive); err != nil {
		return err
	}
	entry, err := archive.CreateHeader(&zip.FileHeader{Name: "META-INF/container.xml", Method: zip.Deflate})
	if err != nil {
		return err
	}
	if _, err := io.WriteString(entry, container); err != nil {
		return err
	}
	entry, err = archive.CreateHeader(&zip.FileHeader{Name: rootFile, Method: zip.Deflate})
	if err != nil {
		return err
	}
	if err := Write(entry, laid, o); err != nil {
		return err
	}
	return archive.Close()
}

// addMediaType adds the first entry, by which programs know the file from its
// first bytes: stored, with its size in the local header and no extra field,
// which is why it is written raw.
func addMediaType(archive *zip.Writer) error {
	text := []byte(mxlType)
	entry, err := archive.CreateRaw(&zip.FileHeader{
		Name:               "mimetype",
		Method:             zip.Store,
		CRC32:              crc32.ChecksumIEEE(text),
		CompressedSize64:   uint64(len(text)),
		UncompressedSize64: uint64(len(text)),
	})
	if err != nil {
		return err
	}
	_, err = entry.Write(text)
	return err
}
