//! Site file and catalogue: parse, resolve, edit.
