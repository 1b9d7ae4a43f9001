package main

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"strings"

	"github.com/spf13/cobra"

	"tieover/cmd/tieover/files"
	"tieover/score/instrument"
	"tieover/templates"
)

// newNewCmd makes `tieover new`: a commented starter spec.
func newNewCmd(s streams) *cobra.Command {
	var like string
	var force, schema bool
	cmd := &cobra.Command{
		Use:   "new FILE",
		Short: "Write a commented starter spec",
		Long: `Writes a section spec with comments that builds as it stands, to be changed.
A FILE that exists is left alone; - stands for standard output.

--like NAME chooses what it shows:
` + starterList(),
		Example: `  tieover new round.yaml
  tieover new barges.yaml --like phasing
  tieover new tieover.schema.json --schema`,
		Args: cobra.ExactArgs(1),
		RunE: func(cmd *cobra.Command, args []string) error {
			if err := withoutEffect(cmd, "schema", "like"); err != nil {
				return err
			}
			text, err := starter(like, schema)
			if err != nil {
				return err
			}
			if err := mayWrite(args[0], force); err != nil {
				return err
			}
			if args[0] == "" || args[0] == "-" {
				return writeTo(s, constant(string(text)))
			}
			return writeFile(cmd.Context(), s, args[0], place{unlisted: true}, constant(string(text))) // a beginning, to be changed
		},
	}
	f := cmd.Flags()
	f.StringVar(&like, "like", templates.Starters()[0].Name, "starter to write, by `NAME`")
	f.BoolVar(&force, "force", false, "replace FILE if it exists")
	f.BoolVar(&schema, "schema", false, "write the JSON Schema of the spec instead, for editors")
	return cmd
}

// starter returns the text to write.
func starter(like string, schema bool) ([]byte, error) {
	if schema {
		return templates.Schema, nil
	}
	if text, ok := templates.Spec(like); ok {
		return text, nil
	}
	var names []string
	for _, t := range templates.Starters() {
		names = append(names, t.Name)
	}
	hint := "there are " + strings.Join(names, ", ")
	if near := instrument.Nearest(like, names); len(near) > 0 {
		hint = "did you mean " + strings.Join(near, " or ") + "?"
	}
	return nil, usage("there is no starter %q; %s", like, hint)
}

// mayWrite refuses to replace what exists, unless forced.
func mayWrite(name string, force bool) error {
	if name == "-" || force {
		return nil
	}
	switch _, err := os.Lstat(name); {
	case err == nil:
		return fmt.Errorf("%s exists and is left as it is; choose another name, or add --force to replace it", name)
	case errors.Is(err, fs.ErrNotExist):
		return nil
	default:
		return files.Error("cannot write", name, err)
	}
}

func starterList() string {
	var list strings.Builder
	for _, t := range templates.Starters() {
		fmt.Fprintf(&list, "  %-11s %s\n", t.Name, t.About)
	}
	return strings.TrimSuffix(list.String(), "\n")
}
