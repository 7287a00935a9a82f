//! Drawings as files of their own.

use crate::browser::Page;
use crate::harness::in_browser;

/// Unfolds what saves the first drawing and presses the button that says this.
async fn save(page: &Page, words: &str, ending: &str) {
    let press = "const figure = document.querySelector('figure:has(.save-drawing)');
        figure.querySelector('.save-drawing').open = true;
        [...figure.querySelectorAll('button')].find(one => one.innerText.includes(arguments[0])).click();";
    page.run(press, vec![words.into()]).await;
    let says = format!("{ending}.");
    page.wait_text(".save-drawing[open] [role=status]", &says)
        .await;
}

/// Width, height, dots to the metre and how many of the colours black and white there are, by
/// Python's zlib and the filters of PNG (third edition, 9.2).
fn looked_at(png: &[u8]) -> Vec<u64> {
    let script = concat!(env!("CARGO_MANIFEST_DIR"), "/tests/data/png/look.py");
    let mut python = std::process::Command::new("python3")
        .arg(script)
        .stdin(std::process::Stdio::piped())
        .stdout(std::process::Stdio::piped())
        .spawn()
        .expect("python3 reads the PNG of this test; install it");
    let mut input = python.stdin.take().unwrap();
    std::io::Write::write_all(&mut input, png).unwrap();
    drop(input);
    let read = python.wait_with_output().unwrap();
    assert!(read.status.success());
    serde_json::from_slice(&read.stdout).unwrap()
}

#[test]
fn a_drawing_is_saved_as_svg_and_as_png_of_its_size() {
    in_browser(|page| async move {
        page.go("/rubrics").await;
        page.wait_for(".piece").await;
        page.click_words(".piece a", "Straight bar shoe").await;
        page.wait_for(".paper .save-drawing").await;
        save(&page, "SVG", ".svg").await;
        let (name, svg) = page.download(".svg").await;
        let svg = String::from_utf8(svg).unwrap();
        assert!(
            svg.contains("xmlns=\"http://www.w3.org/2000/svg\""),
            "{svg}"
        );
        assert!(svg.contains("<title id=\"title\">"), "{svg}");
        let side = svg.split("width=\"").nth(1).unwrap();
        let side: f64 = side.split("mm").next().unwrap().parse().unwrap();
        save(&page, "PNG", ".png").await;
        let (picture, png) = page.download(".png").await;
        assert_eq!(
            name.strip_suffix(".svg"),
            picture.strip_suffix(".png"),
            "both are called alike"
        );
        let [width, height, density, black, white] = looked_at(&png)[..] else {
            panic!("five numbers");
        };
        #[allow(clippy::cast_precision_loss, reason = "a few hundred dots")]
        let dots = width as f64;
        assert!(
            (dots - side / 25.4 * 300.0).abs() <= 1.0,
            "{width} for {side} mm"
        );
        assert_eq!(density, 11_811);
        // A shoe in black lines on white, with grey steel between them.
        let dots = width * height;
        assert!(
            black > 1_000 && white * 3 > dots && (black + white) < dots,
            "{black} {white} of {dots}"
        );
    });
}
