//! `catalogue-not-read`

code! {
    "catalogue-not-read"
    title: "A catalogue cannot be read" | "Ein Katalog kann nicht gelesen werden",
    message: "the catalogue \"{path}\" cannot be read: {why}" | "der Katalog „{path}“ kann nicht gelesen werden: {why}",
    hint: "put the file there, or take its name out of `catalogues`" | "die Datei dorthin legen, oder ihren Namen aus `catalogues` nehmen",
    english:
        /// `catalogues` of `[site]` names a file that could not be read when the name came in. Its parts are not known, so the site is not judged
        /// without them. Names are relative to the folder of the site file; a site in a store names files of that folder only.
        ///
        /// A survey names its catalogues in the setting Catalogues, relative to its own folder; without them its parts are not looked up.
        ///
        /// Put the file there, or take its name out.
    german:
        /// `catalogues` unter `[site]` nennt eine Datei, die nicht gelesen werden konnte, als der Name dazukam. Ihre Teile sind nicht bekannt; ohne sie
        /// wird die Anlage nicht beurteilt. Namen gelten vom Ordner der Anlagendatei aus; eine Anlage in einer Ablage nennt nur Dateien dieses Ordners.
        ///
        /// Eine Aufnahme nennt ihre Kataloge in der Einstellung Catalogues, von ihrem eigenen Ordner aus; ohne sie werden ihre Teile nicht nachgeschlagen.
        ///
        /// Die Datei dorthin legen, oder den Namen herausnehmen.
}
