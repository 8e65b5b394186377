//! `pack`.

use crate::row::sentences;

sentences! {
    /// What `pack` says of the folder that it wrote.
    pub enum PackWords<'a> {
        Wrote { files: usize, folder: &'a str }:
            "wrote {files} files into {folder}"
            | "{files} Dateien in {folder} geschrieben",
        Gone { count: usize, name: &'a str, folder: &'a str }:
            "no longer in {folder}, as this pack does not have what the earlier one had there: {count:file|files} ({name} first)"
            | "nicht mehr in {folder}, weil diese Mappe sie anders als die frühere nicht enthält: {count:Datei|Dateien} ({name} zuerst)",
        KeptWithNewBeside { file: &'a str, beside: &'a str }:
            "kept {file}, which was changed since it was made; the new one is {beside}"
            | "{file} bleibt, da seit der Erstellung geändert; die neue Datei ist {beside}",
        KeptAs { file: &'a str, name: &'a str }:
            "kept {file} as {name}, which was changed since it was made"
            | "{file} bleibt als {name}, da seit der Erstellung geändert",
        Kept { file: &'a str }:
            "kept {file}, which was changed since it was made"
            | "{file} bleibt, da seit der Erstellung geändert",
        CarriedOver { entries: usize, file: &'a str }:
            "carried over from {file}: {entries:entry that was written into it|entries that were written into it}"
            | "aus {file} übernommen: {entries:Eintrag, der hineingeschrieben wurde|Einträge, die hineingeschrieben wurden}",
        CarriedDiffer { count: usize, file: &'a str }:
            "{count:entry|entries} of {file} differ from an earlier file of this folder; those of {file} hold"
            | "{count:Eintrag|Einträge} aus {file} sind anders als in einer früheren Datei dieses Ordners; es gilt, was in {file} steht",
        NotCarried { count: usize, file: &'a str }:
            "not carried over from {file}, since the plan no longer has a row for it: {count:entry|entries}. They stand in that file only:"
            | "aus {file} nicht übernommen, weil der Plan dafür keine Zeile mehr hat: {count:Eintrag|Einträge}. Nur jene Datei enthält noch:",
        NotCarriedOne { sheet: &'a str, row: usize, column: &'a str, written: &'a str }:
            "{sheet}, row {row}, {column}: {written}"
            | "{sheet}, Zeile {row}, {column}: {written}",
        NotCarriedMore { count: usize }:
            "and {count} more"
            | "und {count} weitere",
        WorkbookUnread { file: &'a str }:
            "nothing was carried over from {file}: it is no workbook or table of a pack, or cannot be read"
            | "aus {file} wurde nichts übernommen: Sie ist weder Arbeitsmappe noch Tabelle einer solchen Mappe oder nicht lesbar",
        BuiltOtherwise { count: usize, command: &'a str }:
            "built otherwise than planned: {count:entry|entries}. To see them and take them into the site file: {command}"
            | "anders gebaut als geplant: {count:Eintrag|Einträge}. Ansehen und in die Anlagendatei übernehmen: {command}",
        HasErrors { errors: usize, site: &'a str }:
            "the site has {errors:error|errors}; every sheet says so: latchline check {site}"
            | "die Anlage hat {errors:Fehler|Fehler}; jedes Blatt sagt es: latchline check {site}",
    }
}
