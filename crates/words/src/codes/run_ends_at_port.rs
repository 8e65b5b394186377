//! `run-ends-at-port`

code! {
    "run-ends-at-port"
    title: "A run cannot end at a port or supply" | "Ein Strang kann nicht an Abgang oder Netzteil enden",
    message:
        "run {run} ends at {name}, which is a start, not a stop"
        | "Strang {run} endet an {name}, das ist ein Anfang, kein Halt",
    label: "a port or supply" | "ein Abgang oder Netzteil",
    hint:
        "<is the run written from its far end? Write from = \"{name}\" and to = [{backwards}], and the lengths in that order too; if it is meant as a ring: ><are from and to exchanged? Write from = \"{name}\" and to = [{from_list}]; if it is meant as a ring: ><are from and to exchanged? Write from = \"{name}\" and to = \"{from}\"; if it is meant as a ring: >open the ring at one section, or name the box alone to reach its input; rings are not calculated"
        | "<Vom fernen Ende her geschrieben? Dann from = \"{name}\" und to = [{backwards}] schreiben, die Längen ebenso umgekehrt; wenn es ein Ring sein soll: ><from und to vertauscht? Dann from = \"{name}\" und to = [{from_list}] schreiben; wenn es ein Ring sein soll: ><from und to vertauscht? Dann from = \"{name}\" und to = \"{from}\" schreiben; wenn es ein Ring sein soll: >den Ring an einem Abschnitt auftrennen, oder den Verteiler allein nennen, um seinen Eingang zu erreichen; Ringe werden nicht gerechnet",
    english:
        /// Runs lead away from supplies and ports. A run that comes back to a port would close a ring, and rings are not solved: the current would divide between two ways.
        ///
        /// Example: `to = ["A-1", "A-2", "D1.2"]`. Cut the ring open at one section, or let the run end at the box's input by naming the box alone.
    german:
        /// Stränge führen von Netzteilen und Abgängen weg. Ein Strang, der an einen Abgang zurückkommt, schlösse einen Ring, und Ringe werden nicht gerechnet: Der Strom teilte sich auf zwei Wege.
        ///
        /// Beispiel: `to = ["A-1", "A-2", "D1.2"]`. Den Ring an einem Abschnitt auftrennen, oder den Strang am Eingang des Verteilers enden lassen, indem man ihn allein nennt.
}
