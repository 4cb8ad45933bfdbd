package gelwright.api;

/** How far a long run is, on standard error of a terminal; nothing elsewhere. */
final class Progress {
  /** Fewer files are done before a line could be read. */
  private static final int WORTH_SHOWING = 20;

  private static final int WIDTH = 30;

  private final Terminal terminal;
  private final int all;
  private int shown = -1;

  Progress(Terminal terminal, int all) {
    this.terminal = terminal;
    this.all = all;
  }

  void at(int done) {
    int filled = all == 0 ? WIDTH : (int) ((long) done * WIDTH / all);
    if (isShown() && filled != shown) {
      shown = filled;
      terminal.complain(
          "\r" + "=".repeat(filled) + "-".repeat(WIDTH - filled) + " " + done + " of " + all + " ");
    }
  }

  void end() {
    if (isShown()) {
      terminal.complain("\r" + " ".repeat(WIDTH + 30) + "\r");
    }
  }

  private boolean isShown() {
    return terminal.interactive() && all >= WORTH_SHOWING;
  }
}
