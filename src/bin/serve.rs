//! Serves the built page to browsers on this machine, and to nobody else.
//!
//! `serve FOLDER [PORT]` binds 127.0.0.1 and prints the address; a taken port gives way to the
//! next free one, and port 0 lets the system choose. A path that names no file and has no
//! extension is a place inside the page, so it gets `index.html`.
//!
//! It uses std alone, so that `scripts/start` builds it with one call of `rustc` in a second or two.

use std::ffi::OsString;
use std::fmt;
use std::fs::File;
use std::io::{self, BufRead, BufReader, Write};
use std::net::{Ipv4Addr, TcpListener, TcpStream};
use std::path::{Path, PathBuf};
use std::process::ExitCode;
use std::thread;
use std::time::Duration;

/// The port asked for when none is given.
const USUAL_PORT: u16 = 8417;
/// How many ports after a taken one are tried.
const PORTS_TRIED: u16 = 40;
/// The longest request head read, in bytes: browsers stay far below it.
const HEAD_LIMIT: u64 = 32 * 1024;
/// How long a silent browser keeps a thread.
const PATIENCE: Duration = Duration::from_secs(15);

fn main() -> ExitCode {
    match serve(std::env::args_os().skip(1)) {
        Ok(()) => ExitCode::SUCCESS,
        Err(error) => {
            // With stderr gone there is nobody left to tell.
            let _ = writeln!(io::stderr(), "serve: {error}");
            ExitCode::FAILURE
        }
    }
}

/// Why no page is served.
#[derive(Debug)]
enum ServeError {
    /// The arguments are not `FOLDER [PORT]`.
    Usage,
    /// The folder holds no built page.
    NoPage(PathBuf),
    /// No port could be had, from the first to the last one tried.
    NoPort(u16, u16, io::Error),
    /// The address could not be printed.
    Output(io::Error),
}

impl fmt::Display for ServeError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Usage => write!(f, "say: serve FOLDER [PORT], PORT from 0 to 65535"),
            Self::NoPage(folder) => {
                let folder = folder.display();
                write!(f, "{folder} holds no index.html; build the page first")
            }
            Self::NoPort(first, last, error) => {
                write!(
                    f,
                    "no port from {first} to {last}: {error}; name another one"
                )
            }
            Self::Output(error) => write!(f, "the address could not be printed: {error}"),
        }
    }
}

fn serve(mut arguments: impl Iterator<Item = OsString>) -> Result<(), ServeError> {
    let folder = PathBuf::from(arguments.next().ok_or(ServeError::Usage)?);
    let first = match arguments.next() {
        None => USUAL_PORT,
        Some(port) => port
            .to_str()
            .and_then(|port| port.parse().ok())
            .ok_or(ServeError::Usage)?,
    };
    if !folder.join("index.html").is_file() {
        return Err(ServeError::NoPage(folder));
    }
    let listener = listen(first)?;
    announce(&listener, first).map_err(ServeError::Output)?;
    for stream in listener.incoming() {
        let Ok(stream) = stream else {
            // Out of handles, say: let the open answers end first.
            thread::sleep(Duration::from_millis(50));
            continue;
        };
        let folder = folder.clone();
        // A browser that went away, or a thread that cannot be had, costs this one answer only.
        let _ = thread::Builder::new().spawn(move || talk(&stream, &folder));
    }
    Ok(())
}

/// Listens on `first`, or on the next port after it that is free.
fn listen(first: u16) -> Result<TcpListener, ServeError> {
    let mut port = first;
    loop {
        match TcpListener::bind((Ipv4Addr::LOCALHOST, port)) {
            Ok(listener) => return Ok(listener),
            Err(error) => {
                let next = port
                    .checked_add(1)
                    .filter(|next| next - first <= PORTS_TRIED);
                port = match next {
                    Some(next) if error.kind() == io::ErrorKind::AddrInUse => next,
                    _ => return Err(ServeError::NoPort(first, port, error)),
                };
            }
        }
    }
}

/// Prints the address. The socket is bound by now, so a browser that goes there is answered.
fn announce(listener: &TcpListener, wanted: u16) -> io::Result<()> {
    let port = listener.local_addr()?.port();
    let mut out = io::stdout().lock();
    if wanted != 0 && port != wanted {
        writeln!(
            out,
            "Port {wanted} is taken. Browsers keep records apart for each address: \
             what was entered at port {wanted} is not shown at port {port}."
        )?;
    }
    writeln!(
        out,
        "Evenshod is at http://127.0.0.1:{port}/ (Ctrl+C ends it)"
    )?;
    out.flush()
}

/// Hears one request and answers it.
fn talk(stream: &TcpStream, folder: &Path) -> io::Result<()> {
    stream.set_read_timeout(Some(PATIENCE))?;
    stream.set_write_timeout(Some(PATIENCE))?;
    let mut out = stream;
    answer(BufReader::new(stream), &mut out, folder)
}

/// Reads one request's head and writes the whole answer.
fn answer(request: impl BufRead, out: &mut impl Write, folder: &Path) -> io::Result<()> {
    let mut head = request.take(HEAD_LIMIT);
    let mut first = String::new();
    head.read_line(&mut first)?;
    let mut line = String::new();
    while head.read_line(&mut line)? > 0 && !line.trim_end().is_empty() {
        line.clear();
    }
    let mut words = first.split_ascii_whitespace();
    let (Some(method), Some(target)) = (words.next(), words.next()) else {
        return refuse(out, "400 Bad Request");
    };
    if head.limit() == 0 {
        return refuse(out, "431 Request Header Fields Too Large");
    }
    if method != "GET" && method != "HEAD" {
        return refuse(out, "405 Method Not Allowed\r\nAllow: GET, HEAD");
    }
    let Some(path) = find(folder, target) else {
        return refuse(out, "404 Not Found");
    };
    let mut file = File::open(&path)?;
    let length = file.metadata()?.len();
    write_head(out, "200 OK", media_type(&path), length)?;
    if method == "GET" {
        io::copy(&mut file, out)?;
    }
    out.flush()
}

/// Answers with `status` (its code, name and any further header lines) as the whole text.
fn refuse(out: &mut impl Write, status: &str) -> io::Result<()> {
    let text = status.lines().next().unwrap_or(status);
    let length = u64::try_from(text.len()).unwrap_or(0);
    write_head(out, status, "text/plain; charset=utf-8", length)?;
    out.write_all(text.as_bytes())?;
    out.flush()
}

fn write_head(out: &mut impl Write, status: &str, media: &str, length: u64) -> io::Result<()> {
    // no-cache: a rebuilt page shows at the next reload.
    write!(
        out,
        "HTTP/1.1 {status}\r\nContent-Type: {media}\r\nContent-Length: {length}\r\n\
         Cache-Control: no-cache\r\nX-Content-Type-Options: nosniff\r\n\
         Referrer-Policy: no-referrer\r\nConnection: close\r\n\r\n"
    )
}

/// The file in `folder` that answers a request for `target`; none if there is none or it is
/// outside of `folder`.
fn find(folder: &Path, target: &str) -> Option<PathBuf> {
    let names = names(target)?;
    let folder = folder.canonicalize().ok()?;
    let wanted = folder.join(names.iter().collect::<PathBuf>());
    match wanted.canonicalize() {
        // A link that leads out of the folder resolves to a path that does not start with it.
        Ok(file) if file.is_file() => file.starts_with(&folder).then_some(file),
        _ => {
            let is_place = !names.last().is_some_and(|name| name.contains('.'));
            is_place.then(|| folder.join("index.html"))
        }
    }
}

/// The names between the slashes of `target`, without its query. None where a name could climb
/// out of the folder or reach a hidden file.
fn names(target: &str) -> Option<Vec<String>> {
    let path = target.split(['?', '#']).next()?.strip_prefix('/')?;
    path.split('/')
        .filter(|name| !name.is_empty())
        .map(|name| {
            let name = percent_decoded(name)?;
            let is_plain = !name.starts_with('.') && !name.contains(['/', '\\', ':', '\0']);
            is_plain.then_some(name)
        })
        .collect()
}

/// `text` with its `%41`-like escapes as the bytes they stand for (RFC 3986, 2.1); none if an
/// escape is broken or the bytes are not UTF-8.
fn percent_decoded(text: &str) -> Option<String> {
    let mut parts = text.split('%');
    let mut bytes = parts.next()?.as_bytes().to_vec();
    for part in parts {
        let (code, rest) = part.split_at_checked(2)?;
        // from_str_radix alone would take a sign.
        if !code.bytes().all(|digit| digit.is_ascii_hexdigit()) {
            return None;
        }
        bytes.push(u8::from_str_radix(code, 16).ok()?);
        bytes.extend_from_slice(rest.as_bytes());
    }
    String::from_utf8(bytes).ok()
}

/// The media type of a file, by its extension. Browsers start no wasm under another type.
fn media_type(path: &Path) -> &'static str {
    match path.extension().and_then(|extension| extension.to_str()) {
        Some("html") => "text/html; charset=utf-8",
        Some("js") => "text/javascript; charset=utf-8",
        Some("css") => "text/css; charset=utf-8",
        Some("wasm") => "application/wasm",
        Some("json") => "application/json",
        Some("webmanifest") => "application/manifest+json",
        Some("svg") => "image/svg+xml",
        Some("png") => "image/png",
        Some("jpg" | "jpeg") => "image/jpeg",
        Some("ico") => "image/x-icon",
        Some("woff2") => "font/woff2",
        Some("ttf") => "font/ttf",
        Some("pdf") => "application/pdf",
        Some("csv") => "text/csv; charset=utf-8",
        Some("txt" | "toml" | "md") => "text/plain; charset=utf-8",
        _ => "application/octet-stream",
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::fs;

    /// A folder as Trunk builds it, beside a file that nobody may read; removed when dropped.
    struct Built(PathBuf);

    impl Built {
        fn new(name: &str) -> Self {
            let top = std::env::temp_dir().join(format!("serve-{name}-{}", std::process::id()));
            fs::create_dir_all(top.join("dist/fonts")).unwrap();
            fs::create_dir_all(top.join("dist/.stage")).unwrap();
            fs::write(top.join("secret.txt"), "secret").unwrap();
            fs::write(top.join("dist/.stage/half.txt"), "half").unwrap();
            fs::write(top.join("dist/index.html"), "<p>page").unwrap();
            fs::write(top.join("dist/page_bg.wasm"), [0, 97, 115, 109]).unwrap();
            fs::write(top.join("dist/fonts/a b.woff2"), "font").unwrap();
            Self(top)
        }

        fn ask(&self, request: &str) -> String {
            let mut out = Vec::new();
            answer(request.as_bytes(), &mut out, &self.0.join("dist")).unwrap();
            String::from_utf8(out).unwrap()
        }
    }

    impl Drop for Built {
        fn drop(&mut self) {
            let _ = fs::remove_dir_all(&self.0);
        }
    }

    #[test]
    fn a_place_inside_the_page_gets_the_page() {
        let built = Built::new("place");
        for target in ["/", "/mark", "/sheets/7/print?from=2", "/fonts", "/fonts/"] {
            let said = built.ask(&format!("GET {target} HTTP/1.1\r\nHost: x\r\n\r\n"));
            assert!(
                said.starts_with("HTTP/1.1 200 OK\r\nContent-Type: text/html"),
                "{said}"
            );
            assert!(said.ends_with("\r\n\r\n<p>page"), "{said}");
        }
    }

    #[test]
    fn a_file_comes_with_its_type_and_length() {
        let built = Built::new("file");
        let said = built.ask("GET /page_bg.wasm?1 HTTP/1.1\r\n\r\n");
        assert!(
            said.contains("Content-Type: application/wasm\r\nContent-Length: 4\r\n"),
            "{said}"
        );
        let said = built.ask("GET /fonts/a%20b.woff2 HTTP/1.1\r\n\r\n");
        assert!(said.ends_with("\r\n\r\nfont"), "{said}");
    }

    #[test]
    fn head_says_the_length_and_sends_nothing() {
        let said = Built::new("head").ask("HEAD / HTTP/1.1\r\n\r\n");
        assert!(
            said.contains("Content-Length: 7\r\n") && said.ends_with("\r\n\r\n"),
            "{said}"
        );
    }

    #[test]
    fn a_missing_file_is_not_the_page() {
        let said = Built::new("missing").ask("GET /page-0000.js HTTP/1.1\r\n\r\n");
        assert!(said.starts_with("HTTP/1.1 404 "), "{said}");
    }

    #[test]
    fn nothing_outside_or_hidden_is_given() {
        let built = Built::new("outside");
        for target in [
            "/../secret.txt",
            "/%2e%2e/secret.txt",
            "/fonts/..%2f..%2fsecret.txt",
            "/..%5csecret.txt",
            "/.stage/half.txt",
            "//etc/host.conf",
            "/%zz",
            "/%+1",
            "/%ff",
            "/%",
            "secret.txt",
            "http://127.0.0.1/",
        ] {
            let said = built.ask(&format!("GET {target} HTTP/1.1\r\n\r\n"));
            assert!(said.starts_with("HTTP/1.1 404 "), "{target}: {said}");
        }
    }

    #[cfg(unix)]
    #[test]
    fn a_link_that_leads_outside_is_not_followed() {
        let built = Built::new("link");
        std::os::unix::fs::symlink(built.0.join("secret.txt"), built.0.join("dist/link.txt"))
            .unwrap();
        let said = built.ask("GET /link.txt HTTP/1.1\r\n\r\n");
        assert!(said.starts_with("HTTP/1.1 404 "), "{said}");
    }

    #[test]
    fn only_get_and_head_are_answered() {
        let built = Built::new("method");
        let said = built.ask("POST / HTTP/1.1\r\n\r\n");
        assert!(
            said.starts_with("HTTP/1.1 405 Method Not Allowed\r\nAllow: GET, HEAD\r\n"),
            "{said}"
        );
        assert!(built.ask("\r\n").starts_with("HTTP/1.1 400 "));
        let long = format!("GET / HTTP/1.1\r\nCookie: {}\r\n\r\n", "a".repeat(40_000));
        assert!(built.ask(&long).starts_with("HTTP/1.1 431 "));
    }

    #[test]
    fn a_taken_port_gives_way_to_the_next() {
        let taken = listen(0).unwrap();
        let port = taken.local_addr().unwrap().port();
        let next = listen(port).unwrap().local_addr().unwrap().port();
        assert!(next > port);
    }
}
