//! `headroom`.

use crate::row::sentences;

sentences! {
    /// What `headroom` says.
    pub enum HeadroomWords<'a> {
        Working:
            "adding to every run and supply, and checking the whole each time"
            | "ergänze jeden Strang und jedes Netzteil und prüfe jedes Mal das Ganze",
        NothingThere: "nothing carries stations yet" | "noch trägt nichts Stationen",
        Metres: "metres" | "Meter",
        Title:
            "More stations of one model, or more metres, on each supply and run:"
            | "Weitere Stationen eines Modells, oder weitere Meter, an jedem Netzteil und Strang:",
        OneMore { limits: &'a str }: "One more would bring: {limits}." | "Was eins mehr brächte: {limits}.",
        Spacing:
            "New stations are taken to be as far apart as those of the run are on average, on a free port as on the run of the same box; where they will be farther, put them into the site file and check it."
            | "Neue Stationen sind im mittleren Abstand der Stationen des Strangs angenommen, an einem freien Abgang wie am Strang desselben Verteilers; liegen sie weiter auseinander, in die Anlagendatei eintragen und prüfen.",
        Alone:
            "Each figure alone: what one row uses up, another no longer has. A calculation, not a certificate."
            | "Jede Zahl für sich: Was eine Zeile verbraucht, fehlt einer anderen. Eine Berechnung, kein Nachweis.",
    }
}
