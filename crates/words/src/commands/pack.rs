//! `pack`.

use crate::row::sentences;

sentences! {
    /// What `pack` says of the folder that it wrote.
    pub enum PackWords<'a> {
        Wrote { files: usize, folder: &'a str }:
            "wrote {files} files into {folder}"
            | "{files} Dateien in {folder} geschrieben",
        KeptWithNewBeside { file: &'a str, beside: &'a str }:
            "kept {file}, which was changed since it was made; the new one is {beside}"
            | "{file} bleibt, da seit der Erstellung geändert; die neue Datei ist {beside}",
        KeptAs { file: &'a str, name: &'a str }:
            "kept {file} as {name}, which was changed since it was made"
            | "{file} bleibt als {name}, da seit der Erstellung geändert",
        Kept { file: &'a str }:
            "kept {file}, which was changed since it was made"
            | "{file} bleibt, da seit der Erstellung geändert",
        HasErrors { errors: usize, site: &'a str }:
            "the site has {errors:error|errors}; every sheet says so: latchline check {site}"
            | "die Anlage hat {errors:Fehler|Fehler}; jedes Blatt sagt es: latchline check {site}",
    }
}
