//! `drop-not-stated`

code! {
    "drop-not-stated"
    title: "A drop is not stated" | "Ein Stich ist nicht angegeben",
    message: "the drop of {element} is empty and counts as 0 m" | "Der Stich von {element} ist leer und zählt als 0 m",
    hint: "write the length in metres, or 0" | "die Länge in Metern schreiben, oder 0",
    english:
        /// The cell of a drop is empty, so no cable is counted from the place to the station. A station in another room than its place has some
        /// metres of cable, which then are missing in voltage, cable list and price.
        ///
        /// Write the length; 0 where the station hangs at the place itself.
    german:
        /// Die Zelle eines Stichs ist leer, also zählt vom Ort zur Station keine Leitung. Eine Station in einem anderen Raum als ihr Ort hat einige
        /// Meter Leitung, die dann in Spannung, Leitungsliste und Preis fehlen.
        ///
        /// Die Länge schreiben; 0, wo die Station am Ort selbst hängt.
}
