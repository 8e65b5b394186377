//! `part-of-another-family`

code! {
    "part-of-another-family"
    title: "A part of the survey is of another family" | "Ein Teil der Aufnahme gehört zu einer anderen Gerätefamilie",
    message:
        "\"{name}\" is of the family {family}; the survey is of {expected}"
        | "„{name}“ gehört zur Gerätefamilie {family}; die Aufnahme ist von {expected}",
    hint:
        "<choose {choices:or}, or leave the cell empty: the cheapest that does is taken>"
        | "<{choices:or} wählen, oder die Zelle leer lassen: Dann wird das billigste genommen, das genügt>",
    english:
        /// All parts of a bus are of one family. The survey's is that of the setting Family; without it, that of the first station that the survey names.
        /// A station or box of another family is never exchanged for one that fits: what was written may be what hangs on the wall.
        ///
        /// Example: `Family` is ostrel-48, and one dwelling has the station mossop-t1. Parts of the family that do the same are named.
    german:
        /// Alle Teile eines Busses gehören zu einer Gerätefamilie. Die der Aufnahme steht in der Einstellung Family; ohne sie gilt die der ersten Station,
        /// die die Aufnahme nennt. Eine Station oder ein Verteiler einer anderen wird nie durch ein passendes Teil ersetzt: Was dasteht, hängt vielleicht an der Wand.
        ///
        /// Beispiel: `Family` ist ostrel-48, und eine Wohnung hat die Station mossop-t1. Teile der Familie, die dasselbe tun, werden genannt.
}
