//! Results that cannot be made as they were asked for: packs, drawings, charts.

use crate::row::sentences;

sentences! {
    /// Why a result cannot be made.
    pub enum ResultRefusal<'a> {
        NoPack: "no pack was made" | "keine Mappe wurde gemacht",
        NoPage: "no page was made" | "keine Seite wurde gemacht",
        NoWorkbook: "cannot make the workbook" | "die Arbeitsmappe kann nicht gemacht werden",
        WorkbookFailed { detail: &'a str }:
            "the workbook could not be made: {detail}"
            | "die Arbeitsmappe konnte nicht gemacht werden: {detail}",
        CodeTooLong { device: &'a str, bytes: usize, most: usize }:
            "the QR code of \"{device}\" would hold {bytes} bytes, more than {most}; use a shorter --base-url"
            | "der QR-Code von „{device}“ hätte {bytes} Bytes, mehr als {most}; eine kürzere --base-url nehmen",
        NoFont: "the embedded font cannot be read" | "die eingebettete Schrift kann nicht gelesen werden",
        NoJson: "the result cannot be written as JSON" | "das Ergebnis lässt sich nicht als JSON schreiben",
        SheetForm:
            "the sheet of a door or supply is written as text or json"
            | "das Blatt einer Tür oder eines Netzteils gibt es als text oder json",
        OtherEnding { file: &'a str }:
            "\"{file}\" has the ending of another form than --format asks for"
            | "„{file}“ hat die Endung einer anderen Form, als --format verlangt",
        SeveralPictures { file: &'a str }:
            "several pictures need a folder, not the one file \"{file}\""
            | "mehrere Bilder brauchen einen Ordner, nicht die eine Datei „{file}“",
        PictureForm { file: &'a str }:
            "\"{file}\": pictures are written as .svg or .dxf"
            | "„{file}“: Bilder werden als .svg oder .dxf geschrieben",
        NoPictureFile { file: &'a str }:
            "\"{file}\" is a file that ends neither in .svg nor in .dxf; name such a file, or a folder"
            | "„{file}“ ist eine Datei, die weder auf .svg noch auf .dxf endet; eine solche nennen oder einen Ordner",
        ChartForm { file: &'a str }:
            "--chart writes SVG: \"{file}\" must end in .svg"
            | "--chart schreibt SVG: „{file}“ muss auf .svg enden",
        NotForClient { part: &'a str }:
            "the client's pack has no {part}; take --for installer or --for office"
            | "in der Mappe für den Auftraggeber gibt es kein {part}; --for installer oder --for office nehmen",
        NoAddress { url: &'a str }:
            "\"{url}\" is no address for --base-url; write for example https://door.example/site-4"
            | "„{url}“ ist keine Adresse für --base-url; zum Beispiel https://door.example/site-4 schreiben",
        Revision:
            "the revision must be one line of 1 to 40 characters"
            | "der Stand muss eine Zeile mit 1 bis 40 Zeichen sein",
    }
}
