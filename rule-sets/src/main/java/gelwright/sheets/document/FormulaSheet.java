package gelwright.sheets.document;

import gelwright.quantity.Quantity;
import gelwright.quantity.Share;
import gelwright.sheets.mapping.AboveZero;
import gelwright.sheets.mapping.Between;
import jakarta.validation.Valid;
import jakarta.validation.constraints.NotBlank;
import java.util.List;
import org.jspecify.annotations.Nullable;

/** What a formula sheet may not claim. Components are named after the keys of the sheet. */
public record FormulaSheet(
    @Nullable @AboveZero Quantity batch,
    @Nullable @Valid ProductSheet product,
    @Nullable @Valid EquipmentSheet equipment,
    List<@Valid LineSheet> ingredients,
    List<@Valid StepSheet> method,
    List<@Valid ReadingSheet> measured,
    List<@Valid AcceptanceSheet> accepted) {

  /** The brief. */
  public record ProductSheet(
      @Nullable @Valid SpanSheet pH, @Nullable @AboveZero Quantity shelfLife) {}

  /** A range of pH. */
  public record SpanSheet(
      @Between(from = "-1", to = "15") Double from, @Between(from = "-1", to = "15") Double to) {}

  /** What the batch is made with. */
  public record EquipmentSheet(
      @Nullable @AboveZero Quantity balance,
      @Nullable @Valid DiameterSheet vessel,
      @Nullable @Valid DiameterSheet stirrer,
      @Nullable @Valid RoomSheet room) {}

  /** A vessel or a stirrer. */
  public record DiameterSheet(@Nullable @AboveZero Quantity diameter) {}

  /** The room. */
  public record RoomSheet(
      @Nullable @Between(from = "-30 °C", to = "150 °C") Quantity temperature,
      @Nullable @Between(from = "0 %", to = "100 %") Quantity humidity) {}

  /** A line of the recipe. */
  public record LineSheet(
      @Nullable @Between(from = "0 %", to = "100 %") Share share,
      @Nullable @Between(from = "0 %", to = "100 %") Share strength,
      @Nullable @AboveZero Quantity size) {}

  /** A step of the method. */
  public record StepSheet(
      @Nullable @Between(from = "-30 °C", to = "150 °C") Quantity to,
      @Nullable @Between(from = "-30 °C", to = "150 °C") Quantity at,
      @Nullable @Between(from = "-1", to = "15") Double target,
      @Nullable @AboveZero Quantity over,
      @Nullable @AboveZero Quantity lasting,
      @Nullable @Between(from = "0 rpm", to = "30000 rpm") Quantity stir) {}

  /** A reading. */
  public record ReadingSheet(
      @Nullable @AboveZero Quantity value,
      @Nullable @Between(from = "-1", to = "15") Double pH,
      @Nullable @Between(from = "-30 °C", to = "150 °C") Quantity at,
      @Nullable @AboveZero Quantity shearRate,
      List<@Valid PointSheet> points) {}

  /** A point of a flow curve. */
  public record PointSheet(
      @Nullable @AboveZero Quantity shearRate, @Nullable @AboveZero Quantity stress) {}

  /** A finding somebody has taken responsibility for. */
  public record AcceptanceSheet(@Nullable @NotBlank(message = "must say why") String because) {}
}
