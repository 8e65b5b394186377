//! `cell-without-heading`

code! {
    "cell-without-heading"
    title: "A cell has no heading above it" | "Über einer Zelle steht keine Überschrift",
    message:
        "\"{found}\" stands below no heading and is not read<, nor what stands below it in {others:further row|further rows}>"
        | "„{found}“ steht unter keiner Überschrift und wird nicht gelesen<, ebenso {others:weitere Zeile|weitere Zeilen} darunter>",
    hint:
        "<in this file \"{separator}\" divides cells: where one cell is meant, write {written}>"
        | "<in dieser Datei trennt „{separator}“ Zellen: Ist eine einzige Zelle gemeint, {written} schreiben>",
    english:
        /// A row goes on beyond its headings, or a column has none. What stands there is not read.
        ///
        /// Often the file divides its cells by the sign that stands in a list or in a decimal, and takes it apart: `H;House;G;1` has four cells. In quotes it
        /// is one: `H;House;"G;1"`. Else move the cell below its heading, or leave it if it is a note of your own.
    german:
        /// Eine Zeile reicht über ihre Überschriften hinaus, oder eine Spalte hat keine. Was dort steht, wird nicht gelesen.
        ///
        /// Oft trennt die Datei ihre Zellen mit dem Zeichen, das auch in einer Liste oder Dezimalzahl steht, und reißt sie auseinander: `H;Haus;EG;1` hat vier
        /// Zellen. In Anführungszeichen ist es eine: `H;Haus;"EG;1"`. Sonst die Zelle unter ihre Überschrift setzen, oder stehen lassen, wenn sie eine eigene Notiz ist.
}
