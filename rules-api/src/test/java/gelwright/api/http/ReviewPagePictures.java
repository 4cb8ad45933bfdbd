package gelwright.api.http;

import com.sun.management.OperatingSystemMXBean;
import java.awt.image.BufferedImage;
import java.awt.image.IndexColorModel;
import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.lang.management.ManagementFactory;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.regex.Pattern;
import java.util.stream.IntStream;
import javax.imageio.ImageIO;

/**
 * Draws the pictures of docs/guide/review-page.md from the page as it is, and measures it. Not a
 * test: run it with {@code mvn -q -Ppage -pl rules-api -am -DskipTests test-compile}.
 */
final class ReviewPagePictures {
  private static final Path PAGE = Rig.ROOT.resolve("docs/guide/review-page.md");
  private static final Path FOLDER = Rig.ROOT.resolve("docs/guide/review-page");
  private static final String BEGIN = "<!-- measured -->\n";
  private static final String END = "<!-- end -->\n";
  private static final Pattern COLOUR = Pattern.compile("#([0-9a-f]{6})\\b");
  private static final String ALL = "document.getElementById('more').textContent === ''";
  private static final int WIDE = 1_600;
  private static final int NARROW = 360;
  private static final int COLOURS = 32;
  private static final int LOADS = 21;

  private ReviewPagePictures() {}

  public static void main(String[] arguments) throws IOException {
    Files.createDirectories(FOLDER);
    try (Rig rig = Rig.start();
        Browser browser = Browser.at(rig, WIDE, 1_000)) {
      browser.whole();
      List<String> examples =
          ReviewPage.names().stream().filter(name -> name.startsWith("examples/")).toList();
      for (String example : examples) {
        String file = example.substring("examples/".length());
        String name = file.substring(0, file.indexOf('.'));
        browser.size(WIDE, 1_000).with(text(file)).until(ALL);
        write(name + "-" + WIDE, browser.picture());
        browser.size(NARROW, 900).open().until(ALL);
        browser.run(
            "document.querySelector('.group:has(.finding)').scrollIntoView({behavior: 'instant'})");
        write(name + "-" + NARROW, browser.picture());
      }
      browser.calm();
      measured(rig, browser);
    }
  }

  private static String text(String file) {
    return new String(Rig.example(file), StandardCharsets.UTF_8);
  }

  private static void measured(Rig rig, Browser browser) throws IOException {
    String sheet = text("after-glove-hand-gel.yaml");
    StringBuilder more = new StringBuilder();
    for (String line :
        List.of(
            "Niacinamide, share: 1 %",
            "Caffeine, share: 0.2 %", "Urea, share: 1 %", "Sodium Hyaluronate, share: 0.1 %")) {
      more.append("  - { phase: C, name: ").append(line).append(" }\n");
    }
    String twenty = sheet.replace("  - { phase: D,", more + "  - { phase: D,");
    browser.with(twenty);
    double[] scripts = new double[LOADS];
    double[] page = new double[LOADS];
    double[] server = new double[LOADS];
    for (int i = 0; i < LOADS; i++) {
      double[] taken = browser.untilReviewed();
      scripts[i] = taken[0];
      page[i] = taken[1];
      browser.reviewed();
      long before = processorTime();
      reviewed(rig, twenty);
      server[i] = (processorTime() - before) / 1e6;
    }
    int own = 0;
    int library = 0;
    int knowledge = 0;
    ReviewPage files = ReviewPage.load();
    for (String name : ReviewPage.names()) {
      Representation file = files.file(name);
      int bytes = Math.min(file.bytes().length, file.compressed().length);
      if (name.startsWith("yaml-")) {
        library += bytes;
      } else if (!name.startsWith("examples/")) {
        own += bytes;
      }
    }
    for (String asked : List.of("/openapi.json", "/v1/rules", "/v1/ingredients")) {
      knowledge += Representation.gzip(rig.ask().get(asked).asByteArray()).length;
    }
    String table =
        String.format(
            Locale.ROOT,
            """
            | | |
            |---|---|
            | the page's own files, compressed | %.0f kB |
            | the YAML library, compressed | %.0f kB |
            | what the page asks of the service at first, compressed | %.0f kB |
            | all together; 250 kB is the most that the build lets pass | %.0f kB |
            | scripts, from opening the page to the first review of a formula of 20 lines | %.0f ms |
            | all that the page's own thread does in that time, with layout and drawing | %.0f ms |
            | the service, for that review | %.0f ms |
            | the service and the scripts together; 300 ms is what was aimed at | %.0f ms |
            """,
            own / 1_000.0,
            library / 1_000.0,
            knowledge / 1_000.0,
            (own + library + knowledge) / 1_000.0,
            median(scripts),
            median(page),
            median(server),
            median(scripts) + median(server));
    String guide = Files.readString(PAGE);
    int begin = guide.indexOf(BEGIN) + BEGIN.length();
    int end = guide.indexOf(END);
    Files.writeString(PAGE, guide.substring(0, begin) + table + guide.substring(end));
  }

  private static void reviewed(Rig rig, String sheet) throws IOException {
    try (Rig.Raw raw = rig.raw()) {
      byte[] body = sheet.getBytes(StandardCharsets.UTF_8);
      String answer =
          raw.send(
                  "POST /v1/reviews HTTP/1.1\r\nHost: 127.0.0.1:"
                      + rig.port()
                      + "\r\nConnection: close\r\nContent-Type: application/yaml\r\nContent-Length: "
                      + body.length
                      + "\r\n\r\n")
              .send(body)
              .rest();
      if (!answer.startsWith("HTTP/1.1 200")) {
        throw new IOException(answer);
      }
    }
  }

  /** Of this process, which is the service; asking it takes little of it. */
  private static long processorTime() {
    return ((OperatingSystemMXBean) ManagementFactory.getOperatingSystemMXBean())
        .getProcessCpuTime();
  }

  private static double median(double[] values) {
    double[] sorted = values.clone();
    Arrays.sort(sorted);
    return sorted[sorted.length / 2];
  }

  /** With few colours, so that the pictures stay small. */
  private static void write(String name, byte[] png) throws IOException {
    BufferedImage full = ImageIO.read(new ByteArrayInputStream(png));
    int width = full.getWidth();
    int height = full.getHeight();
    int[] pixels = full.getRGB(0, 0, width, height, null, 0, width);
    Map<Integer, Integer> uses = new HashMap<>();
    for (int pixel : pixels) {
      uses.merge(pixel & 0xf8f8f8, 1, Integer::sum);
    }
    // The page's own colours stay, however little there is of one.
    int[] palette =
        IntStream.concat(
                COLOUR
                    .matcher(
                        new String(
                            ReviewPage.load().file("page.css").bytes(), StandardCharsets.UTF_8))
                    .results()
                    .mapToInt(found -> Integer.parseInt(found.group(1), 16))
                    .distinct(),
                uses.entrySet().stream()
                    .sorted(
                        Comparator.<Map.Entry<Integer, Integer>>comparingInt(Map.Entry::getValue)
                            .reversed()
                            .thenComparing(Map.Entry::getKey))
                    .limit(COLOURS)
                    .mapToInt(entry -> average(pixels, entry.getKey())))
            .toArray();
    Map<Integer, Integer> nearest = new HashMap<>();
    byte[] indices = new byte[pixels.length];
    for (int i = 0; i < pixels.length; i++) {
      indices[i] =
          nearest
              .computeIfAbsent(pixels[i] & 0xffffff, colour -> nearest(palette, colour))
              .byteValue();
    }
    byte[] red = channel(palette, 16);
    byte[] green = channel(palette, 8);
    byte[] blue = channel(palette, 0);
    BufferedImage small =
        new BufferedImage(
            width,
            height,
            BufferedImage.TYPE_BYTE_INDEXED,
            new IndexColorModel(8, palette.length, red, green, blue));
    small.getRaster().setDataElements(0, 0, width, height, indices);
    ImageIO.write(small, "png", FOLDER.resolve(name + ".png").toFile());
  }

  /** Of the pixels that come to the same rough colour. */
  private static int average(int[] pixels, int rough) {
    long red = 0;
    long green = 0;
    long blue = 0;
    long count = 0;
    for (int pixel : pixels) {
      if ((pixel & 0xf8f8f8) == rough) {
        red += (pixel >> 16) & 0xff;
        green += (pixel >> 8) & 0xff;
        blue += pixel & 0xff;
        count++;
      }
    }
    return (int) (red / count) << 16 | (int) (green / count) << 8 | (int) (blue / count);
  }

  private static int nearest(int[] palette, int colour) {
    return IntStream.range(0, palette.length)
        .boxed()
        .min(Comparator.comparingInt(i -> distance(palette[i], colour)))
        .orElseThrow();
  }

  private static int distance(int one, int other) {
    int red = ((one >> 16) & 0xff) - ((other >> 16) & 0xff);
    int green = ((one >> 8) & 0xff) - ((other >> 8) & 0xff);
    int blue = (one & 0xff) - (other & 0xff);
    return red * red + green * green + blue * blue;
  }

  private static byte[] channel(int[] palette, int shift) {
    byte[] values = new byte[palette.length];
    for (int i = 0; i < palette.length; i++) {
      values[i] = (byte) (palette[i] >> shift);
    }
    return values;
  }
}
