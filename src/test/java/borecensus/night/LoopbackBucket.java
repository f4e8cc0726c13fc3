package borecensus.night;

import java.io.InputStream;
import java.net.URI;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.concurrent.CopyOnWriteArrayList;
import org.gaul.s3proxy.S3ErrorCode;
import org.gaul.s3proxy.S3Proxy;
import org.gaul.s3proxy.S3ProxyException;
import org.gaul.s3proxy.auth.AuthenticationType;
import org.gaul.s3proxy.blobstore.BlobStore;
import org.gaul.s3proxy.blobstore.ForwardingBlobStore;
import org.gaul.s3proxy.nio2blob.FilesystemNio2BlobStore;
import software.amazon.awssdk.services.s3.model.CopyObjectRequest;
import software.amazon.awssdk.services.s3.model.CopyObjectResponse;
import software.amazon.awssdk.services.s3.model.PutObjectRequest;
import software.amazon.awssdk.services.s3.model.PutObjectResponse;

/**
 * A bucket on a server of this machine that speaks S3: signed requests on objects, and no folders
 * and no renames.
 */
final class LoopbackBucket {
  static final String HOME = "s3a://depot";

  private static final String IDENTITY = "nobody";
  private static final String SECRET = "kept-from-no-one";

  private final S3Proxy server;
  private final Path scratch;
  private final Watched watched;

  private LoopbackBucket(S3Proxy server, Path scratch, Watched watched) {
    this.server = server;
    this.scratch = scratch;
    this.watched = watched;
  }

  /** Starts the server with an empty bucket, kept as files of a local folder. */
  static LoopbackBucket start(Path folder) throws Exception {
    Files.createDirectories(folder.resolve("buckets/depot"));
    Watched watched =
        new Watched(new FilesystemNio2BlobStore(folder.resolve("buckets").toString()));
    S3Proxy server =
        S3Proxy.builder()
            .blobStore(watched)
            .endpoint(URI.create("http://127.0.0.1:0"))
            .awsAuthentication(AuthenticationType.AWS_V4, IDENTITY, SECRET)
            .build();
    server.start();
    return new LoopbackBucket(server, folder.resolve("scratch"), watched);
  }

  /** What a person gives by {@code --conf} to reach it. */
  Map<String, String> sparkConf() {
    Map<String, String> conf = new TreeMap<>();
    conf.put("endpoint", "http://127.0.0.1:" + server.getPort());
    conf.put("endpoint.region", "eu-example-1");
    conf.put("path.style.access", "true");
    conf.put("access.key", IDENTITY);
    conf.put("secret.key", SECRET);
    conf.put("buffer.dir", scratch.toString());
    // Hadoop shares the file systems of a process by their addresses: that of another test's
    // server must not be taken for this one.
    conf.put("impl.disable.cache", "true");
    Map<String, String> spark = new TreeMap<>();
    conf.forEach((key, value) -> spark.put("spark.hadoop.fs.s3a." + key, value));
    return spark;
  }

  /** The keys of objects in the order in which they were put, copies left out. */
  List<String> put() {
    return watched.put;
  }

  /** The keys that copies were made under. */
  List<String> copied() {
    return watched.copied;
  }

  /** From now on objects whose key ends so cannot be put; empty for none. */
  void refuse(String ending) {
    watched.refused = ending;
  }

  void stop() throws Exception {
    server.stop();
  }

  private static final class Watched extends ForwardingBlobStore {
    private final List<String> put = new CopyOnWriteArrayList<>();
    private final List<String> copied = new CopyOnWriteArrayList<>();
    private volatile String refused = "";

    Watched(BlobStore store) {
      super(store);
    }

    @Override
    public PutObjectResponse putBlob(PutObjectRequest request, InputStream content) {
      if (!refused.isEmpty() && request.key().endsWith(refused)) {
        throw new S3ProxyException(S3ErrorCode.ACCESS_DENIED);
      }
      PutObjectResponse response = super.putBlob(request, content);
      put.add(request.key());
      return response;
    }

    @Override
    public CopyObjectResponse copyBlob(CopyObjectRequest request) {
      CopyObjectResponse response = super.copyBlob(request);
      copied.add(request.destinationKey());
      return response;
    }
  }
}
