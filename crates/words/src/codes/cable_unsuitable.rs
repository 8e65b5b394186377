//! `cable-unsuitable`

code! {
    "cable-unsuitable"
    title: "A cable that is not made for where it runs" | "Eine Leitung, die nicht für ihren Ort gemacht ist",
    short: "cable unsuitable" | "Leitung ungeeignet",
    message:
        "<run {run}><the cable to the lock {lock} of {door}> goes {environment}<, since it leads into another building, {other}>; {cable} is made for {allowed}"
        | "<Strang {run}><die Leitung zum Schloss {lock} von {door}> liegt {environment}<, da er in ein anderes Gebäude führt, {other}>; {cable} ist nur für {allowed} geeignet",
    hint: "take a cable that is made for it" | "eine Leitung nehmen, die dafür gemacht ist",
    measure:
        "The insulation of the run, electronics taken off, on a wet day; and look at the sheath where it leaves the wall."
        | "Die Isolation des Strangs, Elektronik abgeklemmt, an einem nassen Tag; und den Mantel dort ansehen, wo er aus der Wand tritt.",
    english:
        /// # What it checks
        /// The `environment` of each run (indoors, outdoors, buried) against the `environments` of its cable.
        ///
        /// Where a run does not state its environment but leads to a station outdoors, and its cable is not made for
        /// outdoors, this is a warning if the station stands away from all buildings, and a piece of advice if
        /// it stands at one: then only the last metre may be outdoors, or none.
        ///
        /// Where it leads from one building into another, and its cable is made neither for outdoors nor for the ground,
        /// this is a warning: between two houses it lies in one or the other.
        ///
        /// The cable to the lock of a door that is outdoors and not made for it is a warning.
        ///
        /// # Why it matters
        /// Indoor sheath cracks in sunlight within years and takes up water in the ground; the insulation
        /// goes first, then the joints. Outdoor cable, in turn, may not be allowed on escape routes indoors.
        ///
        /// # Example
        /// The gate is fed with flexible twin for indoors, `environment = "buried"`.
        ///
        /// # What to do
        /// Choose a cable made for the place, lead the run indoors, or state the environment if the finding
        /// guesses wrong.
    german:
        /// # Was geprüft wird
        /// Die Umgebung (`environment`) jedes Strangs (innen, außen, im Erdreich) gegen die `environments` seiner
        /// Leitung.
        ///
        /// Nennt ein Strang seine Umgebung nicht, führt aber zu einer Station im Freien, und ist seine Leitung
        /// nicht für außen gemacht, so ist das eine Warnung, wenn die Station abseits aller Gebäude steht, und ein
        /// Hinweis, wenn sie an einem steht: Dann liegt vielleicht nur der letzte Meter außen, oder keiner.
        ///
        /// Führt er von einem Gebäude in ein anderes, und ist seine Leitung weder für außen noch fürs Erdreich
        /// gemacht, so ist das eine Warnung: Zwischen zwei Häusern liegt sie im einen oder im anderen.
        ///
        /// Die Leitung zum Schloss einer Tür im Freien, die nicht dafür gemacht ist, ist eine Warnung.
        ///
        /// # Warum es zählt
        /// Der Mantel einer Innenleitung reißt in der Sonne binnen Jahren und nimmt im Boden Wasser auf; zuerst
        /// geht die Isolation, dann gehen die Verbindungen. Außenleitung ist umgekehrt auf Fluchtwegen im Haus
        /// womöglich nicht erlaubt.
        ///
        /// # Beispiel
        /// Das Tor wird mit Zwillingslitze für innen gespeist, `environment = "buried"`.
        ///
        /// # Was zu tun ist
        /// Eine Leitung wählen, die für den Ort gemacht ist, den Strang innen führen, oder die Umgebung angeben,
        /// wenn der Befund falsch rät.
}
