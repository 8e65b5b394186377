//! `file-too-large`

code! {
    "file-too-large"
    title: "The file is too large to read" | "Die Datei ist zu groß",
    message:
        "the file is too large to read: {bytes} bytes, at most {limit}"
        | "Die Datei ist zu groß zum Lesen: {bytes} Bytes, höchstens {limit}",
    hint:
        "check that the path names a site or catalogue file"
        | "prüfen, ob der Pfad eine Anlagen- oder Katalogdatei nennt",
    english:
        /// A site or catalogue file may have at most 8 MiB, which is some fifty thousand dwellings. A larger file is usually the wrong file.
        ///
        /// Check that the path names a site or catalogue file.
    german:
        /// Eine Anlagen- oder Katalogdatei darf höchstens 8 MiB haben, das sind etwa fünfzigtausend Wohnungen. Eine größere Datei ist meist die falsche.
        ///
        /// Prüfen, ob der Pfad eine Anlagen- oder Katalogdatei nennt.
}
